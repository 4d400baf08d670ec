import { listText } from '#language/figures'
import { formatThreadLength } from '#language/lengths'
import { say as sayMade } from '#language/say'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'

/** "skeins", "boxes". */
export const plural = (word: string): string =>
  /(?:s|x|z|ch|sh)$/.test(word) ? `${word}es` : /[^aeiou]y$/.test(word) ? `${word.slice(0, -1)}ies` : `${word}s`

/** A word that people may have chosen, where it stands in a message. */
const written = (word: string): string => word.replaceAll("'", "''").replace(/[{}<>#]+/g, "'$&'")

/** "1 skein", "2 skeins", "1,240 stitches". The word is English; the messages of the usual ones are in the catalogues (gather.mjs). */
export const counted = (count: number, word: string): string =>
  sayMade(`{count, plural, one {# ${written(word)}} other {# ${written(plural(word))}}}`, { count })

/** How long something may take: "20 seconds", "5 minutes". */
export const limitWords = (seconds: number): string =>
  seconds < 60 ? counted(seconds, 'second') : counted(seconds / 60, 'minute')

/** Every one of so many: "its one thread", "both threads", "all 3 threads". */
export const everyOne = (count: number, word: string): string =>
  sayMade(`{count, plural, =1 {its one ${word}} =2 {both ${plural(word)}} other {all # ${plural(word)}}}`, { count })

/** A length of strand as a length of the thread it is parted from: "13.16 m". */
export const threadLength = (strandTenths: number, strands: number, unit: ThreadLengthUnit): string =>
  formatThreadLength(strandTenths / strands, unit)

/** "a, b and c". */
export const listed = (items: readonly string[]): string => listText(items)
