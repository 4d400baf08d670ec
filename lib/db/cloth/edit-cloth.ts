import 'server-only'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { type Count, formatCount, sameCount } from '#lib/quantity/count'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import { type ClothInput, clothColumnsOf, type SizeCertainty } from './add-cloth'
import { claimCloth, claimLabel, type HeldCloth, journalCloth } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'

type Refusal = Extract<ClothRefusal, { kind: 'label-taken' | 'changed-meanwhile' }>

/** Write a piece's card anew. A size or a count that changes is a correction in the journal; another count is a fresh one. */
export function editCloth(input: ClothInput & { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { id, version, ...card } = input
    const held = await claimCloth(open, { id, version })
    if (!held.ok) return held
    const labelKey = await claimLabel(open, { label: card.label, ownerId: held.value.ownerId, pieceId: id })
    if (!labelKey.ok) return labelKey
    const counted = countChange(held.value, card)
    await open.tx.clothPiece.update({
      where: { id },
      data: { ...clothColumnsOf(card), labelKey: labelKey.value, ...(counted === null ? {} : { isCountStale: false }) },
    })
    const changes = [isOtherSize(held.value, card) ? sizeChange(held.value, card) : null, counted]
    const reason = changes.filter((words) => words !== null).join('; ')
    if (reason !== '') await journalCloth(open, { kind: 'correct', clothPieceId: id, reason })
    return ok(null)
  })
}

export type Measured = { widthUm: number; heightUm: number; isSquared: boolean; sizeCertainty: SizeCertainty }

/** What a piece measures, laid flat and, if so, squared: from now on it is judged by this. Journalled even when nothing changed. */
export function measureCloth(
  input: Measured & { id: string; version: number; note: string | null },
): Promise<Result<null, Extract<ClothRefusal, { kind: 'changed-meanwhile' }>>> {
  return write<null, Extract<ClothRefusal, { kind: 'changed-meanwhile' }>>(async (open) => {
    const { id, version, note, ...measured } = input
    const held = await claimCloth(open, { id, version })
    if (!held.ok) return held
    await open.tx.clothPiece.update({ where: { id }, data: measured })
    const reason = [sizeChange(held.value, measured), note].filter((words) => words !== null).join('; ')
    await journalCloth(open, { kind: 'correct', clothPieceId: id, reason })
    return ok(null)
  })
}

type Size = Pick<HeldCloth, 'widthUm' | 'heightUm' | 'isSquared'>

const isOtherSize = (before: Size, after: Size): boolean =>
  before.widthUm !== after.widthUm || before.heightUm !== after.heightUm || before.isSquared !== after.isSquared

/** Both sizes, in centimetres to a tenth of a millimetre, so that the journal alone can say what a piece once was. */
export function sizeChange(before: Size, after: Size): string {
  const words = (size: Size) => `${formatClothSize(size, 'cm')}${size.isSquared ? ' squared' : ''}`
  return isOtherSize(before, after) ? `${words(before)} to ${words(after)}` : `still ${words(after)}`
}

type HeldCounts = Pick<HeldCloth, 'endsThreads' | 'endsPerUm' | 'picksThreads' | 'picksPerUm'>

/** Both counts, for the journal; null when they are the same. */
export function countChange(before: HeldCounts, after: { ends: Count; picks: Count }): string | null {
  const ends = { threads: before.endsThreads, perUm: before.endsPerUm }
  const picks = { threads: before.picksThreads, perUm: before.picksPerUm }
  if (sameCount(ends, after.ends) && sameCount(picks, after.picks)) return null
  return `${formatCount(ends, picks)} to ${formatCount(after.ends, after.picks)}`
}
