import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { ClothRequest } from '#lib/cloth/fit'
import { marginsAllRound } from '#lib/cloth/margins'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'

export const inches = (count: number): number => Math.round(count * UM_PER_INCH)
export const toTheInch = (threads: number) => ({ threads, perUm: UM_PER_INCH })

export const aPiece = (overrides: Partial<ClothPiece> = {}): ClothPiece => ({
  id: 'piece-1',
  ownerId: 'owner-1',
  label: 'C1',
  name: 'Harrowmere Looms linen',
  colourName: null,
  lab: null,
  weave: 'single',
  ends: toTheInch(28),
  picks: toTheInch(28),
  widthUm: inches(18),
  heightUm: inches(27),
  isSquared: true,
  sizeCertainty: 'measured',
  isTurnable: true,
  dyeing: null,
  washState: 'unknown',
  isCountStale: false,
  isReserved: false,
  isOffcut: false,
  homePlaceId: null,
  currentPlaceId: null,
  ...overrides,
})

/** 140 × 98 over two: 10 × 7 in on 28 count, 16 × 13 in to cut. */
export const aRequest = (overrides: Partial<ClothRequest> = {}): ClothRequest => ({
  width: 140,
  height: 98,
  over: 2,
  margins: marginsAllRound(inches(3)),
  shrinkPercent: 0,
  roundingUm: inches(0.5),
  uncertaintyUm: 0,
  ...overrides,
})
