import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { type CutObjective, type CutPlan, measureOf } from '#lib/cloth/cut-plan'
import type { AskedWish } from '#lib/coverage/asked-cut'
import type { CarryOutRefused } from '#lib/db/cut-plan/carry-out-cut'
import type { ClaimPlanRefused } from '#lib/db/cut-plan/claim-cut-plan'
import type { KeepRefused } from '#lib/db/cut-plan/keep-cut-plan'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { listed } from './amounts'
import { keptByRecordWords } from './kept-by-record'

/** How a wish is called: its design's title, or its size. */
export const wishTitle = (wish: AskedWish, title: string, unit: LengthUnit): string =>
  wish.kind === 'size' ? formatClothSize(wish, unit) : title

const share = (part: number, whole: number): string => {
  const percent = Math.ceil((part / whole) * 100 - 1e-9)
  return percent <= 1 ? '1 %' : `${percent} %`
}

/** How good a plan is, held against what could at best be. */
export function boundWords(plan: CutPlan, objective: CutObjective): string {
  if (plan.isProved) return say('Proved: nothing better exists.')
  if (plan.layouts.length === 0) return say('Nothing found yet.')
  if (plan.valueBound > plan.value)
    return say('Within {share} of the most, by worth, that could at best be cut.', {
      share: share(plan.valueBound - plan.value, plan.valueBound),
    })
  const measure = measureOf(plan, objective)
  const isMoreBetter = objective === 'largest offcut' || objective === 'most value'
  const [better, worse] = isMoreBetter ? [plan.bound, measure] : [measure, plan.bound]
  if (better <= worse) return say('As good as can be, as far as is known.')
  return worse <= 0
    ? say('All is cut that can be; how near the rest is to the best is not known yet.')
    : say('All is cut that can be; the rest is within {share} of what could at best be.', {
        share: share(better - worse, better),
      })
}

/** "12 of 13 cut, from 2 pieces, with 14 cuts.": how far a search has come. */
export const foundWords = (plan: CutPlan, copies: number): string =>
  say(
    '{copies} of {copies2} cut, from {layouts, plural, one {# piece} other {# pieces}}, with {cutCount, plural, one {# cut} other {# cuts}}.',
    { copies: copies - plan.leftOut.length, copies2: copies, layouts: plan.layouts.length, cutCount: plan.cutCount },
  )

/** Why something was left out. */
export const leftOutWords = (fitsSome: boolean, isProved: boolean): string =>
  fitsSome
    ? isProved
      ? say('no room beside the rest, which is proved')
      : say('no room found beside the rest')
    : say('fits none of the pieces')

type Refusal = KeepRefused | CarryOutRefused | ClaimPlanRefused

export function describeCutRefusal(refusal: Refusal, unit: LengthUnit): string {
  switch (refusal.kind) {
    case 'nothing-cut':
      return say('Nothing is cut: tick at least one part.')
    case 'piece-gone':
      return refusal.pieceName === ''
        ? say('A piece of the plan is gone. Make the plan again.')
        : say('{pieceName} is gone. Make the plan again without it.', { pieceName: refusal.pieceName })
    case 'piece-changed':
      return say('{pieceName} was {was} when the plan was made and is {is} now. Make the plan again.', {
        pieceName: refusal.pieceName,
        was: formatClothSize(refusal.was, unit),
        is: formatClothSize(refusal.is, unit),
      })
    case 'piece-reserved':
      return say('{pieceName} is kept for {titles}. Give that project another piece, or make the plan again without this one.', {
        pieceName: refusal.pieceName,
        titles: listed(refusal.titles),
      })
    case 'piece-planned':
      return say(
        '{pieceName} is to be cut for {title} already. Carry that plan out or give it up first, or make this one again without the piece.',
        { pieceName: refusal.pieceName, title: refusal.title },
      )
    case 'more-than-it-was':
      return say('The parts of {pieceName} together are more cloth than it was. Look at the sizes again.', {
        pieceName: refusal.pieceName,
      })
    case 'part-too-large':
      return say('{refusal} does not come out of {pieceName} either way round. Look at that size again.', {
        refusal: formatClothSize(refusal, unit),
        pieceName: refusal.pieceName,
      })
    case 'label-taken':
      return say('There is a piece labelled {label} already. Give this part another label, or none.', { label: refusal.label })
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'no-such-plan':
      return say('There is no such plan of cuts.')
    case 'plan-closed':
      return refusal.status === 'cut'
        ? say('It was carried out already.')
        : say('It was given up. Make it again to carry it out.')
    case 'not-in-plan':
      return say('The plan does not cut that piece.')
    case 'no-such-part':
      return say('The plan has no such part. Open it again.')
    case 'changed-meanwhile':
      return say('Somebody changed it meanwhile. Look at it again.')
  }
}
