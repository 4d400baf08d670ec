import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { ensurePlace } from '../place/ensure-place'
import { refuseKeptByRecord } from '../place/refuse-kept-by-record'
import { write } from '../write'
import { claimNotion, journalNotion } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

type Refusal = Extract<NotionRefusal, { kind: 'already-there' | 'kept-by-record' | 'changed-meanwhile' }>

/**
 * Lay a notion somewhere else: only for now (it is then out) or to live there. A place that is not known yet is made; one without a home
 * finds it wherever it is first laid. From one strange place to the next it is out since the day it left home. What a project has stays the project's.
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
    const { homePlaceId, currentPlaceId, outSince } = held.value
    const mayGo = await refuseKeptByRecord(open, input.toPlaceLabel)
    if (!mayGo.ok) return mayGo
    const toPlaceId = await ensurePlace(open, input.toPlaceLabel)
    const newHomeId = input.becomesHome || homePlaceId === null ? toPlaceId : homePlaceId
    if (toPlaceId === currentPlaceId && newHomeId === homePlaceId) return refused({ kind: 'already-there' })
    const isAway = isOut({ homePlaceId: newHomeId, currentPlaceId: toPlaceId })
    await tx.notion.update({
      where: { id: input.id },
      data: { homePlaceId: newHomeId, currentPlaceId: toPlaceId, outSince: isAway ? (outSince ?? at) : null },
    })
    const kind = !isAway && newHomeId === homePlaceId ? 'return' : 'move'
    await journalNotion(open, { kind, notionId: input.id, fromPlaceId: currentPlaceId, toPlaceId })
    return ok(null)
  })
}
