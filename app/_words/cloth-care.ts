import { formatDate } from '#language/day'
import { say, sayings } from '#language/say'
import type { BleedReason, BleedTest, CareNote } from '#lib/cloth/care'
import type { ClothDyeing, ClothPiece, OneWayReason, WashState } from '#lib/cloth/cloth-piece'

/** Why a piece is worked one way only: "the dye runs one way". */
export const oneWayWords: Record<OneWayReason, string> = sayings({
  count: 'its count is not square',
  dye: 'the dye runs one way',
  grid: 'a grid is printed on it',
  stripe: 'a band or stripe runs one way',
  slubs: 'strong slubs run one way',
  'drawn work': 'drawn-thread work is planned on it',
  nap: 'its nap or sheen runs one way',
})

/** "not turned: the dye runs one way". */
export const notTurnedWords = (because: OneWayReason | null): string =>
  because === null ? say('not to be turned') : say('not turned: {oneWay}', { oneWay: oneWayWords[because] })

export const dyeingWords: Record<ClothDyeing, string> = sayings({
  plain: 'not dyed: white, raw or bleached',
  dyed: 'dyed in one colour',
  'hand-dyed': 'hand-dyed, mottled',
})

export const washWords: Record<WashState, string> = sayings({
  unknown: 'nobody knows',
  new: 'never washed yet',
  washed: 'washed',
  never: 'not to be washed',
})

/** What is added to a cut from this piece because it will shrink, and why. */
export function shrinkageWords(
  { washState, washedOn }: Pick<ClothPiece, 'washState'> & { washedOn: string | null },
  shrinkPercent: number,
): string {
  switch (washState) {
    case 'washed':
      return say('Washed{rest}: it has shrunk, so nothing is added to a cut for it.', {
        rest: washedOn ? ` ${formatDate(washedOn)}` : '',
      })
    case 'never':
      return say('Not to be washed: it will not shrink, so nothing is added to a cut for it.')
    case 'new':
      return say('Never washed yet: {allowed}', { allowed: allowed(shrinkPercent) })
    case 'unknown':
      return say('Nobody knows whether it was washed: {allowed}', { allowed: allowed(shrinkPercent) })
  }
}

const allowed = (percent: number): string =>
  percent === 0
    ? say('Settings allow nothing for shrinking when it is washed.')
    : say('{percent} % is allowed in every cut for shrinking when it is washed, as Settings say.', { percent })

const becauseWords: Record<BleedReason, string> = sayings({
  'hand-dyed': 'It is hand-dyed',
  red: 'It is red',
  dark: 'It is dark',
})

/** How a test wet on white came out: "no dye ran, Tue 8 Sep 2026". */
export const bleedTestWords = (test: BleedTest, testedOn: string | null): string =>
  [test === 'bled' ? say('the dye ran') : say('no dye ran'), testedOn && formatDate(testedOn)].filter(Boolean).join(', ')

/** What to mind, as a heading and a sentence. */
export function careWords(note: CareNote): { title: string; words: string } {
  switch (note.kind) {
    case 'do-not-wash':
      return {
        title: say('Not to be washed'),
        words: say(
          'Old, fragile, beaded or mixed cloth can be spoilt by water. Ask a conservator before anything is done to clean it.',
        ),
      }
    case 'bled':
      return {
        title: say('Its dye runs'),
        words: say(
          'Keep it from water and damp, and from light thread and cloth. What is valued goes to a conservator before it is wetted.',
        ),
      }
    case 'passed':
      return {
        title: say('No dye ran when it was tried'),
        words: say('A pass is no guarantee: try it again before it is washed with light thread on it.'),
      }
    case 'test-first':
      return {
        title: say('Try it wet on white before it is washed'),
        words: say(
          '{because}, and such dye may run. Press a damp white cloth on a corner until dry; a pass is no guarantee. Anything old or valued goes to a conservator first.',
          { because: becauseWords[note.because] },
        ),
      }
    case 'count-again':
      return {
        title: say('Count it again'),
        words: say(
          'It was washed since its threads were counted. Cloth shrinks and its count rises, so sizes and fits here are of the old count.',
        ),
      }
    case 'look-before-turning':
      return note.why === 'dye'
        ? {
            title: say('Look before it is turned'),
            words: say('It is hand-dyed: in daylight, see whether the colour runs one way.'),
          }
        : {
            title: say('Look before it is turned'),
            words: say('Its count is not square, so a design changes its size when the piece is turned.'),
          }
  }
}
