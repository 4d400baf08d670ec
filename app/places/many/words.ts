import { say } from '#language/say'
import type { ManyRefused } from '#lib/db/place/add-many-places'
import type { PatternExpected, PatternRefused } from '#lib/place/label-pattern'
import type { ManyPlan } from '#lib/place/plan-many'
import { listed } from '#words/amounts'
import { kindWord } from '../words'

function expectedWords(expected: PatternExpected): string {
  switch (expected) {
    case 'value':
      return say('a number or one letter')
    case 'end-or-to':
    case 'after-run':
      return say('a comma, “by”, a dash or the closing ]')
    case 'step':
      return say('how far apart they are: 10')
  }
}

/** Why a pattern does not read, and what would. */
export function describePatternRefusal(refusal: PatternRefused): string {
  switch (refusal.kind) {
    case 'empty':
      return say('Write a pattern, such as T[2-4] > .[1-5] > -[01-40].')
    case 'unexpected':
      return say('Position {at}: “{found}” cannot stand here. Inside brackets there should be {expected}.', {
        at: refusal.at,
        found: refusal.found,
        expected: expectedWords(refusal.expected),
      })
    case 'not-open':
      return say('Position {at}: this ] closes nothing. Put a [ before what is counted.', { at: refusal.at })
    case 'not-closed':
      return say('Position {at}: this [ is never closed. Put a ] after what is counted.', { at: refusal.at })
    case 'nothing-inside':
      return say('Position {at}: there is nothing here to label. Write something on either side of each >.', { at: refusal.at })
    case 'falling':
      return say('Position {at}: from {from} to {to} goes backwards. Put the smaller first.', {
        at: refusal.at,
        from: refusal.from,
        to: refusal.to,
      })
    case 'not-after':
      return say(
        'Position {at}: {refusal} does not come after {before}. Inside brackets everything rises, and nothing comes twice.',
        { at: refusal.at, refusal: refusal.value, before: refusal.before },
      )
    case 'mixed':
      return say(
        'Position {at}: {refusal} is not of the same sort as the rest of these brackets. Keep them to numbers, to capitals or to small letters.',
        { at: refusal.at, refusal: refusal.value },
      )
    case 'uneven-zeros':
      return say('Position {at}: {from} and {to} are not written equally wide. Fill both with zeros: [01-40].', {
        at: refusal.at,
        from: refusal.from,
        to: refusal.to,
      })
    case 'too-many-digits':
      return say('Position {at}: numbers have up to {most} digits here.', { at: refusal.at, most: refusal.most })
    case 'no-step':
      return say('Position {at}: they would never move on. “by” takes 1 or more.', { at: refusal.at })
    case 'runs-together':
      return say(
        'Position {at}: these numbers run into the ones before, so that 1 and 11 read like 11 and 1. Put a dot or a dash between them, or write them with zeros.',
        { at: refusal.at },
      )
    case 'too-deep':
      return say('Position {at}: places stand at most {most} deep in one pattern.', { at: refusal.at, most: refusal.most })
    case 'too-long':
      return say('The label {label} is longer than {most} characters. Make the text shorter.', {
        label: refusal.label,
        most: refusal.most,
      })
    case 'too-many':
      return say('That is {count, number} places. At most {most, number} are made at once; make them in parts.', {
        count: refusal.count,
        most: refusal.most,
      })
  }
}

export function describeManyRefusal(refusal: ManyRefused): string {
  switch (refusal.kind) {
    case 'no-pattern':
      return describePatternRefusal(refusal.why)
    case 'no-such-place':
      return say('The place they were to stand in is not there any more. Choose another.')
    case 'clashes': {
      const more = refusal.count - refusal.labels.length
      const shown =
        more > 0 ? say('{labels} and {more} more', { labels: refusal.labels.join(', '), more }) : listed(refusal.labels)
      return say(
        '{shown} {count, plural, one {stands} other {stand}} somewhere else already. Leave {count, plural, one {it} other {them}} out of the pattern, as in [1-4, 6-8], or move {count, plural, one {it} other {them}} first. Nothing was made.',
        { shown, count: refusal.count },
      )
    }
    case 'nothing-new':
      return say('All of them are there already. Nothing was made.')
  }
}

export type LevelSum = {
  level: number
  kind: string
  count: number
  fresh: number
  there: number
  clash: number
  first: string
  last: string
}

/** A plan's lines, summed up by level. */
export function sumLevels({ lines }: Pick<ManyPlan, 'lines'>): LevelSum[] {
  const sums: LevelSum[] = []
  for (const { level, label, kind, outcome } of lines) {
    const sum = sums[level] ?? { level, kind: kindWord(kind), count: 0, fresh: 0, there: 0, clash: 0, first: label, last: label }
    sum.count++
    sum[outcome === 'new' ? 'fresh' : outcome]++
    sum.last = label
    sums[level] = sum
  }
  return sums
}

/** What would become of them: 3 to make, 15 there already. */
export const sumWords = ({ fresh, there, clash }: Pick<LevelSum, 'fresh' | 'there' | 'clash'>): string =>
  [
    fresh > 0 && say('{fresh, number} to make', { fresh }),
    there > 0 && say('{there, number} there already', { there }),
    clash > 0 && say('{clash, plural, one {# label} other {# labels}} taken elsewhere', { clash }),
  ]
    .filter(Boolean)
    .join(', ')
