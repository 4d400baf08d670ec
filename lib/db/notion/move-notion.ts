import 'server-only'
import { ok, type Result } from '#lib/result'
import { layElsewhere } from '../place/lay-elsewhere'
import { write } from '../write'
import { claimNotion, journalNotion } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

type Refusal = Extract<NotionRefusal, { kind: 'already-there' | 'kept-by-record' | 'changed-meanwhile' }>

/** Lay a notion somewhere else, as `layElsewhere` has it. What a project has stays the project's. */
export function moveNotion(input: {
  id: string
  version: number
  toPlaceLabel: string
  becomesHome: boolean
}): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const held = await claimNotion(open, input)
    if (!held.ok) return held
    const laid = await layElsewhere(open, held.value, input)
    if (!laid.ok) return laid
    const { lies, kind } = laid.value
    await open.tx.notion.update({ where: { id: input.id }, data: lies })
    const places = { fromPlaceId: held.value.currentPlaceId, toPlaceId: lies.currentPlaceId }
    await journalNotion(open, { kind, notionId: input.id, ...places })
    return ok(null)
  })
}
