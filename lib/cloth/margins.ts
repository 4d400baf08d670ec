import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { textKey } from '#lib/quantity/text-key'

/** Plain cloth left on each side of the design, in micrometres. */
export type Margins = { leftUm: number; rightUm: number; topUm: number; bottomUm: number }

/** Ways of finishing that are always there; a person may add others by name. */
export const finishings = [
  'framed',
  'large sampler',
  'ornament',
  'flat-fold',
  'pillow',
  'bell pull',
  'box top',
  'biscornu',
  'drum',
  'pin-drum lid',
] as const
export type Finishing = (typeof finishings)[number]

export const defaultFinishing: Finishing = 'framed'

const sidesAndEnds = (sidesIn: number, endsIn: number): Margins => ({
  leftUm: sidesIn * UM_PER_INCH,
  rightUm: sidesIn * UM_PER_INCH,
  topUm: endsIn * UM_PER_INCH,
  bottomUm: endsIn * UM_PER_INCH,
})
const allRound = (inches: number): Margins => sidesAndEnds(inches, inches)

/**
 * Margins to start from; a person may set others. Framed is the sum of its parts, rounded up (see `framingMargin`). A drum's strip goes
 * once round with 1 in of lap. Common practice, no published source; advice differs.
 */
export const finishingMargins: Readonly<Record<Finishing, Readonly<Margins>>> = {
  framed: allRound(3),
  'large sampler': allRound(3),
  ornament: allRound(2),
  'flat-fold': allRound(2),
  pillow: allRound(2),
  'bell pull': sidesAndEnds(2, 3),
  'box top': allRound(2),
  biscornu: allRound(1),
  drum: sidesAndEnds(0.5, 1.5),
  'pin-drum lid': allRound(2),
}

/** The same margin on every side. */
export const marginsAllRound = (marginUm: number): Margins => ({
  leftUm: marginUm,
  rightUm: marginUm,
  topUm: marginUm,
  bottomUm: marginUm,
})

/** A way of finishing that a person added. */
export type OwnFinishing = { name: string; margins: Margins }

/** Margins by way of finishing, as a person keeps them. */
export type MarginTable = { margins: Readonly<Record<Finishing, Margins>>; ownFinishings: readonly OwnFinishing[] }

/** Every way of finishing with its margins: those always there, then the person's own in the order they were added. */
export const listFinishings = ({ margins, ownFinishings }: MarginTable): (OwnFinishing & { isOwn: boolean })[] => [
  ...finishings.map((name) => ({ name, margins: margins[name], isOwn: false })),
  ...ownFinishings.map((own) => ({ ...own, isOwn: true })),
]

/** The way of finishing of that name, however it is written; null when there is none. */
export function findFinishing(table: MarginTable, name: string): (OwnFinishing & { isOwn: boolean }) | null {
  const key = textKey(name)
  return listFinishings(table).find((each) => textKey(each.name) === key) ?? null
}

/** The margins of a way of finishing; of the default one where there is none of that name. */
export const marginsFor = (table: MarginTable, name: string): Margins =>
  findFinishing(table, name)?.margins ?? table.margins[defaultFinishing]
