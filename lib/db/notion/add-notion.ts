import 'server-only'
import type { NotionCard } from '#lib/notion/notion'
import { sizeKeyOf } from '#lib/notion/size'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { ensurePlace } from '../place/ensure-place'
import { refuseKeptByRecord } from '../place/refuse-kept-by-record'
import { write } from '../write'
import { journalNotion } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

type Refusal = Extract<NotionRefusal, { kind: 'no-such-owner' | 'kept-by-record' }>

/** A new notion in the larder, so many of it. A place that is not known yet is made. */
export function addNotion(
  input: NotionCard & { ownerId: string; count: number; placeLabel: string | null },
): Promise<Result<{ id: string }, Refusal>> {
  return write<{ id: string }, Refusal>(async (open) => {
    const { tx, touch } = open
    const { placeLabel, ...row } = input
    const { ownerId, count } = row
    const owner = await tx.owner.findUnique({ where: { id: ownerId }, select: { id: true } })
    if (!owner) return refused({ kind: 'no-such-owner', ownerId })
    const mayGo = placeLabel === null ? ok(null) : await refuseKeptByRecord(open, placeLabel)
    if (!mayGo.ok) return mayGo
    const placeId = placeLabel === null ? null : await ensurePlace(open, placeLabel)
    const id = newId()
    await tx.notion.create({ data: { id, ...row, sizeKey: sizeKeyOf(row), homePlaceId: placeId, currentPlaceId: placeId } })
    await journalNotion(open, { kind: 'receive', notionId: id, wholeDelta: count, toPlaceId: placeId, toOwnerId: ownerId })
    touch('notion', id)
    return ok({ id })
  })
}
