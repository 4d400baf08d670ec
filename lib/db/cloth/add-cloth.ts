import 'server-only'
import type { ClothDyeing, OneWayReason, WashState, Weave } from '#lib/cloth/cloth-piece'
import type { Lab } from '#lib/colour/lab'
import type { Count } from '#lib/quantity/count'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { ensurePlace } from '../place/ensure-place'
import { refuseKeptByRecord } from '../place/refuse-kept-by-record'
import { write } from '../write'
import { claimLabel, journalCloth } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'

/** How the size of a piece, or its count, is known. */
export const sizeCertainties = ['measured', 'label', 'guess'] as const
export type SizeCertainty = (typeof sizeCertainties)[number]

/** What is written on a piece's card, where it lies apart. */
export type ClothInput = {
  label: string | null
  makerName: string | null
  name: string
  colourName: string | null
  lab: Lab | null
  weave: Weave
  /** Warp threads counted going sideways. */
  ends: Count
  /** Weft threads counted going up. */
  picks: Count
  widthUm: number
  heightUm: number
  countCertainty: SizeCertainty
  isSquared: boolean
  sizeCertainty: SizeCertainty
  isTurnable: boolean
  /** Why it may not be turned; nobody need have said. Of no account while it may. */
  oneWayBecause: OneWayReason | null
  dyeing: ClothDyeing | null
  washState: WashState
  /** yyyy-mm-dd, of cloth that was washed. */
  washedOn: string | null
  note: string | null
}

type Refusal = Extract<ClothRefusal, { kind: 'label-taken' | 'no-such-owner' | 'kept-by-record' }>

/** A new piece in the larder. A place that is not known yet is made. */
export function addCloth(
  input: ClothInput & { ownerId: string; placeLabel: string | null; reason?: string | null },
): Promise<Result<{ id: string }, Refusal>> {
  return write<{ id: string }, Refusal>(async (open) => {
    const { tx, touch } = open
    const { ownerId, placeLabel, reason = null, ...card } = input
    const owner = await tx.owner.findUnique({ where: { id: ownerId }, select: { id: true } })
    if (!owner) return refused({ kind: 'no-such-owner', ownerId })
    const labelKey = await claimLabel(open, { label: card.label, ownerId, pieceId: null })
    if (!labelKey.ok) return labelKey
    const mayGo = placeLabel === null ? ok(null) : await refuseKeptByRecord(open, placeLabel)
    if (!mayGo.ok) return mayGo
    const placeId = placeLabel === null ? null : await ensurePlace(open, placeLabel)
    const id = newId()
    await tx.clothPiece.create({
      data: { id, ownerId, ...clothColumnsOf(card), labelKey: labelKey.value, homePlaceId: placeId, currentPlaceId: placeId },
    })
    await journalCloth(open, { kind: 'receive', clothPieceId: id, wholeDelta: 1, toPlaceId: placeId, toOwnerId: ownerId, reason })
    touch('cloth', id)
    return ok({ id })
  })
}

/** The card as columns of its row. */
export function clothColumnsOf({ lab, ends, picks, ...card }: ClothInput) {
  return {
    ...card,
    oneWayBecause: card.isTurnable ? null : card.oneWayBecause,
    washedOn: card.washState === 'washed' ? card.washedOn : null,
    labL: lab?.L ?? null,
    labA: lab?.a ?? null,
    labB: lab?.b ?? null,
    endsThreads: ends.threads,
    endsPerUm: ends.perUm,
    picksThreads: picks.threads,
    picksPerUm: picks.perUm,
  }
}
