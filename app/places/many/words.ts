import { numberText } from '#language/figures'
import type { ManyRefused } from '#lib/db/place/add-many-places'
import type { PatternExpected, PatternRefused } from '#lib/place/label-pattern'
import type { ManyPlan } from '#lib/place/plan-many'
import { counted, listed } from '#words/amounts'
import { kindWord } from '../words'

function expectedWords(expected: PatternExpected): string {
  switch (expected) {
    case 'value':
      return 'a number or one letter'
    case 'end-or-to':
    case 'after-run':
      return 'a comma, “by”, a dash or the closing ]'
    case 'step':
      return 'how far apart they are: 10'
  }
}

/** Why a pattern does not read, and what would. */
export function describePatternRefusal(refusal: PatternRefused): string {
  switch (refusal.kind) {
    case 'empty':
      return 'Write a pattern, such as T[2-4] > .[1-5] > -[01-40].'
    case 'unexpected':
      return `Position ${refusal.at}: “${refusal.found}” cannot stand here. Inside brackets there should be ${expectedWords(refusal.expected)}.`
    case 'not-open':
      return `Position ${refusal.at}: this ] closes nothing. Put a [ before what is counted.`
    case 'not-closed':
      return `Position ${refusal.at}: this [ is never closed. Put a ] after what is counted.`
    case 'nothing-inside':
      return `Position ${refusal.at}: there is nothing here to label. Write something on either side of each >.`
    case 'falling':
      return `Position ${refusal.at}: from ${refusal.from} to ${refusal.to} goes backwards. Put the smaller first.`
    case 'not-after':
      return `Position ${refusal.at}: ${refusal.value} does not come after ${refusal.before}. Inside brackets everything rises, and nothing comes twice.`
    case 'mixed':
      return `Position ${refusal.at}: ${refusal.value} is not of the same sort as the rest of these brackets. Keep them to numbers, to capitals or to small letters.`
    case 'uneven-zeros':
      return `Position ${refusal.at}: ${refusal.from} and ${refusal.to} are not written equally wide. Fill both with zeros: [01-40].`
    case 'too-many-digits':
      return `Position ${refusal.at}: numbers have up to ${refusal.most} digits here.`
    case 'no-step':
      return `Position ${refusal.at}: they would never move on. “by” takes 1 or more.`
    case 'runs-together':
      return `Position ${refusal.at}: these numbers run into the ones before, so that 1 and 11 read like 11 and 1. Put a dot or a dash between them, or write them with zeros.`
    case 'too-deep':
      return `Position ${refusal.at}: places stand at most ${refusal.most} deep in one pattern.`
    case 'too-long':
      return `The label ${refusal.label} is longer than ${refusal.most} characters. Make the text shorter.`
    case 'too-many':
      return `That is ${numberText(refusal.count)} places. At most ${numberText(refusal.most)} are made at once; make them in parts.`
  }
}

export function describeManyRefusal(refusal: ManyRefused): string {
  switch (refusal.kind) {
    case 'no-pattern':
      return describePatternRefusal(refusal.why)
    case 'no-such-place':
      return 'The place they were to stand in is not there any more. Choose another.'
    case 'clashes': {
      const more = refusal.count - refusal.labels.length
      const shown = more > 0 ? `${refusal.labels.join(', ')} and ${more} more` : listed(refusal.labels)
      return `${shown} ${refusal.count === 1 ? 'stands' : 'stand'} somewhere else already. Leave ${refusal.count === 1 ? 'it' : 'them'} out of the pattern, as in [1-4, 6-8], or move ${refusal.count === 1 ? 'it' : 'them'} first. Nothing was made.`
    }
    case 'nothing-new':
      return 'All of them are there already. Nothing was made.'
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
    fresh > 0 && `${numberText(fresh)} to make`,
    there > 0 && `${numberText(there)} there already`,
    clash > 0 && `${counted(clash, 'label')} taken elsewhere`,
  ]
    .filter(Boolean)
    .join(', ')
