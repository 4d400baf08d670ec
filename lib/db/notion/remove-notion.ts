import 'server-only'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import { claimNotion, journalNotion, refuseInUse } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

type Refusal = Extract<NotionRefusal, { kind: 'in-use' | 'changed-meanwhile' }>

/** A notion leaves the larder, all of it; its history stays. Refused while a project has it. */
export function removeNotion(input: { id: string; version: number; reason: string | null }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { id, reason } = input
    const held = await claimNotion(open, input)
    if (!held.ok) return held
    const free = refuseInUse(held.value)
    if (!free.ok) return free
    const { count, currentPlaceId, ownerId } = held.value
    await open.tx.notion.update({ where: { id }, data: { goneAt: open.at, outSince: null } })
    await journalNotion(open, {
      ...{ kind: 'correct', notionId: id, wholeDelta: -count, fromPlaceId: currentPlaceId, fromOwnerId: ownerId, reason },
    })
    return ok(null)
  })
}
