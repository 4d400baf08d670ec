import { careOf } from '#lib/cloth/care'
import type { RulerRefusal } from '#lib/cloth/ruler-count'
import type { ClothRefusal } from '#lib/db/cloth/cloth-refusal'
import { type ClothDetail, findClothPiece } from '#lib/db/cloth/queries'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'
import type { Result } from '#lib/result'
import { careWords } from '#words/cloth-care'
import { calendarDay } from '#words/date'
import { keptByRecordWords } from '#words/kept-by-record'
import { placeRef } from './collection'
import { notFound, Problem } from './problem'
import { noSuch } from './stock-refusal'

/** A piece as the API gives it. */
export function describePiece(piece: ClothDetail) {
  const { ownerId, label, makerName, name, colourName, lab, weave, ends, picks, isCountStale, widthUm, heightUm } = piece
  const { isSquared, countCertainty, isTurnable, oneWayBecause, dyeing, washState, washedOn, bleedTest, bleedTestedOn } = piece
  return {
    clothPieceId: piece.id,
    version: piece.version,
    ...{ ownerId, label, makerName, name, colourName, lab, weave, ends, picks, isCountStale, widthUm, heightUm },
    countText: formatCount(ends, picks),
    sizeText: formatClothSize(piece, 'in'),
    sizeCertainty: piece.sizeCertainty as typeof countCertainty,
    ...{ isSquared, countCertainty, isTurnable, oneWayBecause, dyeing, washState, washedOn, bleedTest, bleedTestedOn },
    care: careOf(piece).map((note) => {
      const { title, words } = careWords(note)
      return { kind: note.kind, text: `${title}. ${words}` }
    }),
    note: piece.note,
    isGone: piece.isGone,
    parent: piece.parent && { clothPieceId: piece.parent.id, label: piece.parent.label },
    reservedBy: piece.reservedBy.map(({ projectId, title }) => ({ projectId, title })),
    home: placeRef(piece.home),
    current: placeRef(piece.current),
  }
}

/** A piece that is held, with the version a change is asked for; else the problem. */
export async function findHeldPiece(
  id: string,
  version: number | undefined,
): Promise<{ piece: ClothDetail; claim: { id: string; version: number } } | Problem> {
  const piece = await findClothPiece(id)
  if (!piece || piece.isGone) return notFound('piece of cloth', id)
  return { piece, claim: { id, version: version ?? piece.version } }
}

/** The piece after a write, or why it was not written. */
export async function answerPiece(id: string, result: Result<unknown, Refusal>) {
  if (!result.ok) return describeClothRefusal(result.error)
  const piece = await findClothPiece(id)
  if (!piece) throw new Error(`answerPiece: no piece ${id}`)
  return describePiece(piece)
}

type Refusal = Extract<ClothRefusal, { kind: 'label-taken' | 'no-such-owner' | 'kept-by-record' | 'changed-meanwhile' }>

export function describeClothRefusal(refusal: Refusal): Problem {
  switch (refusal.kind) {
    case 'label-taken':
      return new Problem('refused', `The owner has a piece labelled ${refusal.label} already.`)
    case 'no-such-owner':
      return noSuch('owner', 'ownerId')
    case 'kept-by-record':
      return new Problem('refused', keptByRecordWords(refusal.label))
    case 'changed-meanwhile':
      return new Problem('refused', 'The piece was changed meanwhile. Read it again, then ask with its new version.')
  }
}

/** A day in the body that has not come yet. */
export function refuseComing(field: string, day: string | null): Problem | null {
  if (day === null || day <= calendarDay(new Date())) return null
  return new Problem('invalid', `${field}: that day has not come yet.`, {
    errors: [{ field: `/${field}`, message: 'That day has not come yet.', accepted: 'today, or a day before' }],
  })
}

/** Cloth that has to be looked at before anybody says whether it may be turned. */
export const wantsTurning = (why: 'count' | 'dye'): Problem => {
  const message = why === 'dye' ? 'Hand-dyed cloth may run one way.' : 'Its count is not square.'
  return new Problem('invalid', `isTurnable: ${message}`, {
    errors: [{ field: '/isTurnable', message, accepted: 'true or false' }],
  })
}

/** Readings along a ruler that make no count of cloth. */
export function noCount({ way, ...refusal }: RulerRefusal): Problem {
  const field = way === 'ends' ? 'across' : 'up'
  const message =
    refusal.kind === 'no-reading'
      ? 'There is no reading.'
      : `${Number(refusal.perInch.toFixed(2))} to the inch is no count of cloth.`
  const errors = [{ field: `/${field}`, message, accepted: '1 to 200 threads to the inch' }]
  return new Problem('invalid', `${field}: ${message}`, { errors })
}
