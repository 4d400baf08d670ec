import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import { claimNotion, journalNotion } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

/** `received`: so many more. `used`: so many used up, worn out or broken. `counted`: so many are there. */
export const countChanges = ['received', 'used', 'counted'] as const
export type CountChange = (typeof countChanges)[number]

type Refusal = Extract<NotionRefusal, { kind: 'not-enough' | 'changed-meanwhile' }>

/** More of a notion, fewer, or what a count found. A count is journalled even when it finds what the record says. */
export function countNotion(input: {
  id: string
  version: number
  change: CountChange
  many: number
  reason: string | null
}): Promise<Result<{ count: number }, Refusal>> {
  return write<{ count: number }, Refusal>(async (open) => {
    const { id, change, many, reason } = input
    const held = await claimNotion(open, input)
    if (!held.ok) return held
    const { count, currentPlaceId, projectId } = held.value
    if (change === 'used' && many > count) return refused({ kind: 'not-enough', count })
    const wholeDelta = change === 'received' ? many : change === 'used' ? -many : many - count
    await open.tx.notion.update({ where: { id }, data: { count: count + wholeDelta } })
    const kind = change === 'received' ? 'receive' : change === 'used' ? 'use' : 'correct'
    const where = change === 'used' ? { fromPlaceId: currentPlaceId } : { toPlaceId: currentPlaceId }
    const counted = change === 'counted' ? `counted ${many}, ${count} on record` : null
    const words = [counted, reason].filter((text) => text !== null).join('; ')
    await journalNotion(open, { kind, notionId: id, wholeDelta, ...where, projectId, reason: words === '' ? null : words })
    return ok({ count: count + wholeDelta })
  })
}
