import type { NotionRefusal } from '#lib/db/notion/notion-refusal'
import { findNotion, type NotionDetail, type NotionListed } from '#lib/db/notion/queries'
import { toBuy } from '#lib/notion/to-buy'
import type { Result } from '#lib/result'
import { describeNotionRefusal } from '#words/notion'
import { placeRef } from './collection'
import { notFound, Problem } from './problem'
import { noSuch } from './stock-refusal'

/** A notion as the API gives it. */
export function describeNotion(notion: NotionListed) {
  const { ownerId, kind, name, size, minimum, packOf, priceMinor, note, count, usedBy } = notion
  return {
    notionId: notion.id,
    version: notion.version,
    ...{ ownerId, kind, name, size, minimum, packOf, priceMinor, note, count },
    toBuy: toBuy(notion),
    usedBy: usedBy && { projectId: usedBy.id, title: usedBy.title },
    home: placeRef(notion.home),
    current: placeRef(notion.current),
  }
}

export const describeNotionDetail = (notion: NotionDetail) => ({ ...describeNotion(notion), isGone: notion.isGone })

/** A notion, on the list or (`isGone`) off it, with the version a change is asked for; else the problem. */
export async function findHeldNotion(
  id: string,
  { version, isGone }: { version: number | undefined; isGone: boolean },
): Promise<{ notion: NotionDetail; claim: { id: string; version: number } } | Problem> {
  const notion = await findNotion(id)
  if (!notion || notion.isGone !== isGone) return notFound('notion', id)
  return { notion, claim: { id, version: version ?? notion.version } }
}

/** The notion after a write, or why it was not written. */
export async function answerNotion(id: string, result: Result<unknown, NotionRefusal>) {
  if (!result.ok) return notionProblem(result.error)
  const notion = await findNotion(id)
  if (!notion) throw new Error(`answerNotion: no notion ${id}`)
  return describeNotionDetail(notion)
}

export function notionProblem(refusal: NotionRefusal): Problem {
  if (refusal.kind === 'no-such-owner') return noSuch('owner', 'ownerId')
  if (refusal.kind === 'no-such-project') return noSuch('project under way', 'projectId')
  return new Problem('refused', describeNotionRefusal(refusal))
}
