import 'server-only'
import type { NotionCard } from '#lib/notion/notion'
import { sizeKeyOf } from '#lib/notion/size'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import { claimNotion, journalNotion } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

type Refusal = Extract<NotionRefusal, { kind: 'changed-meanwhile' }>

/** Write a notion's card anew. Its count stays: that is counted, received or used up. */
export function editNotion(input: NotionCard & { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { id, version, ...card } = input
    const held = await claimNotion(open, { id, version })
    if (!held.ok) return held
    await open.tx.notion.update({ where: { id }, data: { ...card, sizeKey: sizeKeyOf(card) } })
    const reason = cardChange(held.value, card)
    if (reason !== '') await journalNotion(open, { kind: 'correct', notionId: id, reason })
    return ok(null)
  })
}

/** What the journal says of a changed card, so that it alone can tell what a notion was once called. */
function cardChange(before: NotionCard, after: NotionCard): string {
  const change = (what: string, from: string | number | null, to: string | number | null) =>
    from === to ? [] : [`${what} ${from ?? 'not said'} to ${to ?? 'not said'}`]
  return [
    ...change('kind', before.kind, after.kind),
    ...change('name', before.name, after.name),
    ...change('size', before.size, after.size),
    ...change('minimum', before.minimum, after.minimum),
    ...change('pack of', before.packOf, after.packOf),
    ...(before.priceMinor === after.priceMinor ? [] : ['price changed']),
    ...(before.note === after.note ? [] : ['note changed']),
  ].join('; ')
}
