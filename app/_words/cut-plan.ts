import { formatClothSize } from '#language/lengths'
import { type CutObjective, type CutPlan, measureOf } from '#lib/cloth/cut-plan'
import type { AskedWish } from '#lib/coverage/asked-cut'
import type { CarryOutRefused } from '#lib/db/cut-plan/carry-out-cut'
import type { ClaimPlanRefused } from '#lib/db/cut-plan/claim-cut-plan'
import type { KeepRefused } from '#lib/db/cut-plan/keep-cut-plan'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { counted, listed } from './amounts'
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
  if (plan.isProved) return 'Proved: nothing better exists.'
  if (plan.layouts.length === 0) return 'Nothing found yet.'
  if (plan.valueBound > plan.value)
    return `Within ${share(plan.valueBound - plan.value, plan.valueBound)} of the most, by worth, that could at best be cut.`
  const measure = measureOf(plan, objective)
  const isMoreBetter = objective === 'largest offcut' || objective === 'most value'
  const [better, worse] = isMoreBetter ? [plan.bound, measure] : [measure, plan.bound]
  if (better <= worse) return 'As good as can be, as far as is known.'
  return worse <= 0
    ? 'All is cut that can be; how near the rest is to the best is not known yet.'
    : `All is cut that can be; the rest is within ${share(better - worse, better)} of what could at best be.`
}

/** "12 of 13 cut, from 2 pieces, with 14 cuts.": how far a search has come. */
export const foundWords = (plan: CutPlan, copies: number): string =>
  `${copies - plan.leftOut.length} of ${copies} cut, from ${counted(plan.layouts.length, 'piece')}, with ${counted(plan.cutCount, 'cut')}.`

/** Why something was left out. */
export const leftOutWords = (fitsSome: boolean, isProved: boolean): string =>
  fitsSome ? (isProved ? 'no room beside the rest, which is proved' : 'no room found beside the rest') : 'fits none of the pieces'

type Refusal = KeepRefused | CarryOutRefused | ClaimPlanRefused

export function describeCutRefusal(refusal: Refusal, unit: LengthUnit): string {
  switch (refusal.kind) {
    case 'nothing-cut':
      return 'Nothing is cut: tick at least one part.'
    case 'piece-gone':
      return refusal.pieceName === ''
        ? 'A piece of the plan is gone. Make the plan again.'
        : `${refusal.pieceName} is gone. Make the plan again without it.`
    case 'piece-changed':
      return `${refusal.pieceName} was ${formatClothSize(refusal.was, unit)} when the plan was made and is ${formatClothSize(refusal.is, unit)} now. Make the plan again.`
    case 'piece-reserved':
      return `${refusal.pieceName} is kept for ${listed(refusal.titles)}. Give that project another piece, or make the plan again without this one.`
    case 'piece-planned':
      return `${refusal.pieceName} is to be cut for ${refusal.title} already. Carry that plan out or give it up first, or make this one again without the piece.`
    case 'more-than-it-was':
      return `The parts of ${refusal.pieceName} together are more cloth than it was. Look at the sizes again.`
    case 'part-too-large':
      return `${formatClothSize(refusal, unit)} does not come out of ${refusal.pieceName} either way round. Look at that size again.`
    case 'label-taken':
      return `There is a piece labelled ${refusal.label} already. Give this part another label, or none.`
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'no-such-plan':
      return 'There is no such plan of cuts.'
    case 'plan-closed':
      return refusal.status === 'cut' ? 'It was carried out already.' : 'It was given up. Make it again to carry it out.'
    case 'not-in-plan':
      return 'The plan does not cut that piece.'
    case 'no-such-part':
      return 'The plan has no such part. Open it again.'
    case 'changed-meanwhile':
      return 'Somebody changed it meanwhile. Look at it again.'
  }
}
