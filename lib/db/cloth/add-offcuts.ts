import 'server-only'
import type { PieceSize } from '#lib/cloth/check-cut'
import { ok, type Result } from '#lib/result'
import { newId } from '../new-id'
import { ensurePlace } from '../place/ensure-place'
import { refuseKeptByRecord } from '../place/refuse-kept-by-record'
import type { Write } from '../write-gate'
import { claimLabel, journalCloth } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'

/** A piece that was cut off: labelled, measured, and put somewhere (where its parent lives, when no place is given). */
export type OffcutInput = PieceSize & {
  label: string | null
  placeLabel: string | null
  /** The project it is kept for. */
  keptForProjectId?: string | null
  note?: string | null
}

/**
 * Pieces that were cut off another one: each has the other as parent and the same weave, counts, colour and care, and was measured just
 * now.
 *
 * @param cut.homePlaceId  where one goes for which no place is given
 * @param cut.fromPlaceId  where the parent lay
 * @returns their ids in the order given; a refusal leaves nothing written, when it is given back from the write
 */
export async function addOffcuts(
  write: Write,
  offcuts: readonly OffcutInput[],
  cut: {
    parentId: string
    isSquared: boolean
    homePlaceId: string | null
    fromPlaceId: string | null
    projectId: string | null
    cutPlanId?: string | null
    who?: string | null
  },
): Promise<Result<{ offcutIds: string[] }, Extract<ClothRefusal, { kind: 'label-taken' | 'kept-by-record' }>>> {
  const { tx, touch } = write
  const { parentId, isSquared, fromPlaceId, projectId, cutPlanId = null, who = null } = cut
  const { label: parentLabel, ...kind } = await tx.clothPiece.findUniqueOrThrow({ where: { id: parentId }, select: kindColumns })
  const offcutIds: string[] = []
  for (const { label, placeLabel, widthUm, heightUm, keptForProjectId = null, note = null } of offcuts) {
    const labelKey = await claimLabel(write, { label, ownerId: kind.ownerId, pieceId: null })
    if (!labelKey.ok) return labelKey
    const mayGo = placeLabel === null ? ok(null) : await refuseKeptByRecord(write, placeLabel)
    if (!mayGo.ok) return mayGo
    const placeId = placeLabel === null ? cut.homePlaceId : await ensurePlace(write, placeLabel)
    const id = newId()
    await tx.clothPiece.create({
      data: {
        ...kind,
        ...{ id, label, labelKey: labelKey.value, widthUm, heightUm, isSquared, sizeCertainty: 'measured' },
        ...{ parentId, homePlaceId: placeId, currentPlaceId: placeId, keptForProjectId, note },
      },
    })
    await journalCloth(write, {
      ...{ kind: 'cut', clothPieceId: id, wholeDelta: 1, fromPlaceId, toPlaceId: placeId, toOwnerId: kind.ownerId },
      ...{ projectId: keptForProjectId ?? projectId, cutPlanId, who, reason: parentLabel },
    })
    touch('cloth', id)
    offcutIds.push(id)
  }
  return ok({ offcutIds })
}

/** What an offcut has from its parent, and the parent's label for the journal. */
const kindColumns = {
  label: true,
  ownerId: true,
  makerName: true,
  name: true,
  colourName: true,
  labL: true,
  labA: true,
  labB: true,
  weave: true,
  endsThreads: true,
  endsPerUm: true,
  picksThreads: true,
  picksPerUm: true,
  countCertainty: true,
  isCountStale: true,
  isTurnable: true,
  oneWayBecause: true,
  dyeing: true,
  washState: true,
  washedOn: true,
  bleedTest: true,
  bleedTestedOn: true,
} as const
