import { formatDate } from '#language/day'
import type { BleedReason, BleedTest, CareNote } from '#lib/cloth/care'
import type { ClothDyeing, ClothPiece, OneWayReason, WashState } from '#lib/cloth/cloth-piece'

/** Why a piece is worked one way only: "the dye runs one way". */
export const oneWayWords: Record<OneWayReason, string> = {
  count: 'its count is not square',
  dye: 'the dye runs one way',
  grid: 'a grid is printed on it',
  stripe: 'a band or stripe runs one way',
  slubs: 'strong slubs run one way',
  'drawn work': 'drawn-thread work is planned on it',
  nap: 'its nap or sheen runs one way',
}

/** "not turned: the dye runs one way". */
export const notTurnedWords = (because: OneWayReason | null): string =>
  because === null ? 'not to be turned' : `not turned: ${oneWayWords[because]}`

export const dyeingWords: Record<ClothDyeing, string> = {
  plain: 'not dyed: white, raw or bleached',
  dyed: 'dyed in one colour',
  'hand-dyed': 'hand-dyed, mottled',
}

export const washWords: Record<WashState, string> = {
  unknown: 'nobody knows',
  new: 'never washed yet',
  washed: 'washed',
  never: 'not to be washed',
}

/** What is added to a cut from this piece because it will shrink, and why. */
export function shrinkageWords(
  { washState, washedOn }: Pick<ClothPiece, 'washState'> & { washedOn: string | null },
  shrinkPercent: number,
): string {
  switch (washState) {
    case 'washed':
      return `Washed${washedOn ? ` ${formatDate(washedOn)}` : ''}: it has shrunk, so nothing is added to a cut for it.`
    case 'never':
      return 'Not to be washed: it will not shrink, so nothing is added to a cut for it.'
    case 'new':
      return `Never washed yet: ${allowed(shrinkPercent)}`
    case 'unknown':
      return `Nobody knows whether it was washed: ${allowed(shrinkPercent)}`
  }
}

const allowed = (percent: number): string =>
  percent === 0
    ? 'Settings allow nothing for shrinking when it is washed.'
    : `${percent} % is allowed in every cut for shrinking when it is washed, as Settings say.`

const becauseWords: Record<BleedReason, string> = {
  'hand-dyed': 'It is hand-dyed',
  red: 'It is red',
  dark: 'It is dark',
}

/** How a test wet on white came out: "no dye ran, Tue 8 Sep 2026". */
export const bleedTestWords = (test: BleedTest, testedOn: string | null): string =>
  [test === 'bled' ? 'the dye ran' : 'no dye ran', testedOn && formatDate(testedOn)].filter(Boolean).join(', ')

/** What to mind, as a heading and a sentence. */
export function careWords(note: CareNote): { title: string; words: string } {
  switch (note.kind) {
    case 'do-not-wash':
      return {
        title: 'Not to be washed',
        words:
          'Old, fragile, beaded or mixed cloth can be spoilt by water. Ask a conservator before anything is done to clean it.',
      }
    case 'bled':
      return {
        title: 'Its dye runs',
        words:
          'Keep it from water and damp, and from light thread and cloth. What is valued goes to a conservator before it is wetted.',
      }
    case 'passed':
      return {
        title: 'No dye ran when it was tried',
        words: 'A pass is no guarantee: try it again before it is washed with light thread on it.',
      }
    case 'test-first':
      return {
        title: 'Try it wet on white before it is washed',
        words: `${becauseWords[note.because]}, and such dye may run. Press a damp white cloth on a corner until dry; a pass is no guarantee. Anything old or valued goes to a conservator first.`,
      }
    case 'count-again':
      return {
        title: 'Count it again',
        words:
          'It was washed since its threads were counted. Cloth shrinks and its count rises, so sizes and fits here are of the old count.',
      }
    case 'look-before-turning':
      return note.why === 'dye'
        ? { title: 'Look before it is turned', words: 'It is hand-dyed: in daylight, see whether the colour runs one way.' }
        : {
            title: 'Look before it is turned',
            words: 'Its count is not square, so a design changes its size when the piece is turned.',
          }
  }
}
