import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { ensurePlace } from '../place/ensure-place'
import { write } from '../write'
import { claimNotion, journalNotion } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

type Refusal = Extract<NotionRefusal, { kind: 'already-there' | 'changed-meanwhile' }>

/**
 * Lay a notion somewhere else: only for now (it is then out) or to live there. A place that is not known yet is made; one without a home
 * finds it wherever it is first laid. What a project has stays the project's.
 */
export function moveNotion(input: {
  id: string
  version: number
  toPlaceLabel: string
  becomesHome: boolean
}): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { tx, at } = open
    const held = await claimNotion(open, input)
    if (!held.ok) return held
    const { homePlaceId, currentPlaceId } = held.value
    const toPlaceId = await ensurePlace(open, input.toPlaceLabel)
    const newHomeId = input.becomesHome || homePlaceId === null ? toPlaceId : homePlaceId
    if (toPlaceId === currentPlaceId && newHomeId === homePlaceId) return refused({ kind: 'already-there' })
    const isAway = isOut({ homePlaceId: newHomeId, currentPlaceId: toPlaceId })
    await tx.notion.update({
      where: { id: input.id },
      data: { homePlaceId: newHomeId, currentPlaceId: toPlaceId, outSince: isAway ? at : null },
    })
    const kind = !isAway && newHomeId === homePlaceId ? 'return' : 'move'
    await journalNotion(open, { kind, notionId: input.id, fromPlaceId: currentPlaceId, toPlaceId })
    return ok(null)
  })
}
