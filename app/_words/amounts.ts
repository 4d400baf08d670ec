import { formatThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'

/** "skeins", "boxes". */
export const plural = (word: string): string =>
  /(?:s|x|z|ch|sh)$/.test(word) ? `${word}es` : /[^aeiou]y$/.test(word) ? `${word.slice(0, -1)}ies` : `${word}s`

/** "1 skein", "2 skeins", "1,240 stitches". */
export const counted = (count: number, word: string): string =>
  `${count.toLocaleString('en-GB')} ${count === 1 ? word : plural(word)}`

/** How long something may take: "20 seconds", "5 minutes". */
export const limitWords = (seconds: number): string =>
  seconds < 60 ? counted(seconds, 'second') : counted(seconds / 60, 'minute')

/** Every one of so many: "its one thread", "both threads", "all 3 threads". */
export const everyOne = (count: number, word: string): string =>
  count === 1 ? `its one ${word}` : count === 2 ? `both ${plural(word)}` : `all ${counted(count, word)}`

/** A length of strand as a length of the thread it is parted from: "13.16 m". */
export const threadLength = (strandTenths: number, strands: number, unit: ThreadLengthUnit): string =>
  formatThreadLength(strandTenths / strands, unit)

/** "a, b and c". */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items[0] ?? ''
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`
}
