import { UM_PER_INCH } from '#lib/quantity/cloth-length'

/** Plain cloth left on each side of the design, in micrometres. */
export type Margins = { leftUm: number; rightUm: number; topUm: number; bottomUm: number }

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
 * Margins to start from; a person may set others. Framed is plain cloth seen 0.75, rabbet 0.25, board edge 0.125 and turn-back for
 * lacing 1.5 in, rounded up. A drum's strip goes once round with 1 in of lap. Common practice, no published source; advice differs.
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
