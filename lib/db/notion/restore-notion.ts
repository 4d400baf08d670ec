import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { write } from '../write'
import { journalNotion } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

type Refusal = Extract<NotionRefusal, { kind: 'changed-meanwhile' }>

/**
 * Bring back a notion that was taken off the list, as many as there were, where it was. A place that was taken away meanwhile is not its
 * place any more. What was laid together with more of the same is there and does not come back by itself.
 */
export function restoreNotion(input: { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { tx, at, touch } = open
    const { id, version } = input
    const notion = await tx.notion.findFirst({
      where: { id, version, goneAt: { not: null } },
      select: {
        ownerId: true,
        count: true,
        homePlace: standingPlace,
        currentPlace: standingPlace,
        movements: { orderBy: [{ revision: 'desc' }, { id: 'desc' }], take: 1, select: { kind: true } },
      },
    })
    if (notion?.movements[0]?.kind !== 'correct') return refused({ kind: 'changed-meanwhile' })
    const standing = (place: { id: string; goneAt: Date | null } | null) => (place && place.goneAt === null ? place.id : null)
    const homePlaceId = standing(notion.homePlace)
    const currentPlaceId = standing(notion.currentPlace) ?? homePlaceId
    const outSince = isOut({ homePlaceId, currentPlaceId }) ? at : null
    await tx.notion.update({
      where: { id },
      data: { goneAt: null, homePlaceId, currentPlaceId, outSince, version: { increment: 1 } },
    })
    touch('notion', id)
    const { count, ownerId } = notion
    await journalNotion(open, { kind: 'undo', notionId: id, wholeDelta: count, toPlaceId: currentPlaceId, toOwnerId: ownerId })
    return ok(null)
  })
}

const standingPlace = { select: { id: true, goneAt: true } } as const
