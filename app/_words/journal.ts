import { formatDate } from '#language/day'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { type LengthUnit, parseClothLength, parseClothSize } from '#lib/quantity/cloth-length'
import { parseCount } from '#lib/quantity/count'
import { countWords } from './cloth-count'

/** One beginning that the program writes into the journal, in English and by centimetres, and what it is in a person's words and unit. */
type Written = [RegExp, (found: string[], unit: LengthUnit) => string]

const size = (text = '', unit: LengthUnit): string => {
  const read = parseClothSize(text, 'cm')
  return read ? formatClothSize(read, unit) : text
}
const count = (text = ''): string => {
  const read = parseCount(text)
  return read ? countWords(read.ends, read.picks) : text
}
const squared = (mark: string | undefined) => (mark ? say(', squared') : '')

/** "64, 63 and 64 in 2 in", or each with its own length. */
const readings = (text = '', unit: LengthUnit): string =>
  text.replace(/ and (?=\d)/g, ', ').replace(/(\d[\d.¼½¾]*) in ([\d.¼½¾]+ (?:in|cm))/g, (_, threads: string, length: string) => {
    const um = parseClothLength(length, unit)
    return say('{threads} in {length}', {
      threads,
      length: um === null ? length : formatClothLength(um, length.endsWith('in') ? 'in' : 'cm'),
    })
  })

const cm = '[\\d.]+ × [\\d.]+ cm'
const threads = '[\\d.]+(?: × [\\d.]+)? (?:count|per 10 cm)'

const all: readonly Written[] = [
  [
    new RegExp(`^(${cm})( squared)? to (${cm})( squared)?`),
    ([before, wasSquared, after, isSquared], unit) =>
      say('{before}{wasSquared} to {after}{isSquared}', {
        ...{ before: size(before, unit), wasSquared: squared(wasSquared) },
        ...{ after: size(after, unit), isSquared: squared(isSquared) },
      }),
  ],
  [
    new RegExp(`^still (${cm})( squared)?`),
    ([held, mark], unit) => say('still {size}{squared}', { size: size(held, unit), squared: squared(mark) }),
  ],
  [
    new RegExp(`^(${threads}) to (${threads})`),
    ([before, after]) => say('{before} to {after}', { before: count(before), after: count(after) }),
  ],
  [new RegExp(`^still (${threads})`), ([held]) => say('still {count}', { count: count(held) })],
  [
    /^counted (.+?) across and (.+?) up(?=$|: |;)/,
    ([across, up], unit) =>
      say('counted {across} across and {up} up', { across: readings(across, unit), up: readings(up, unit) }),
  ],
  [/^washed (\d{4}-\d{2}-\d{2})/, ([day]) => say('washed {day}', { day: formatDate(day as string) })],
  [/^(.+) merged into (.+)$/, ([gone, kept]) => say('{gone} merged into {kept}', { gone, kept })],
  [/^(.+) taken back$/, ([what]) => say('{what} taken back', { what: what?.replace(/,$/, '') })],
  [/^brought in from (.+), row (\d+)/, ([file, row]) => say('brought in from {file}, row {row}', { file, row })],
  [/^by the list (.+)$/, ([title]) => say('by the list {title}', { title })],
  [
    /^(\d+) of (\d+) copies/,
    ([some, copies]) =>
      say('{count, number} of {copies, plural, one {# copy} other {# copies}}', { count: Number(some), copies: Number(copies) }),
  ],
  [/^found$/, () => say('found')],
  [/^used up$/, () => say('used up')],
  [/^not there when it was pulled$/, () => say('not there when it was pulled')],
]

/**
 * Why a thing moved, as the journal keeps it: what the program wrote there is said in the language and the unit of whoever reads it, what
 * a person wrote stays as it is.
 */
export function reasonSaid(reason: string | null, unit: LengthUnit): string {
  let rest = reason ?? ''
  let said = ''
  // One beginning may follow another: the readings along a ruler, then the counts before and after.
  for (let turn = 0; turn < 3; turn++) {
    for (const [pattern, words] of all) {
      const found = pattern.exec(rest)
      if (!found) continue
      rest = rest.slice(found[0].length)
      const after = /^(?:: |; )/.exec(rest)?.[0] ?? ''
      said += words(found.slice(1), unit) + after
      rest = rest.slice(after.length)
      break
    }
  }
  return said + rest
}
