import { listNotions, type NotionListed } from '#lib/db/notion/queries'
import { inRuns } from '#lib/listing/in-runs'
import type { Run } from '#lib/listing/runs'
import type { NotionKind } from '#lib/notion/notion'
import { counted } from '#words/amounts'
import { notionKindWords } from '#words/notion'
import { notionMatches } from '../_listing/chosen-things'
import type { NotionsQuery } from '../_listing/notions-query'
import type { NotionRow } from './notion-columns'

export type NotionsFound = {
  /** In the order of the list: by kind and size. */
  rows: NotionRow[]
  /** Their headings. */
  runs: Run[]
  /** All there are, whatever is chosen. */
  every: NotionListed[]
}

/** The notions of these owners that the choices find. */
export async function findNotions(query: NotionsQuery, ownerIds: readonly string[]): Promise<NotionsFound> {
  const every = await listNotions(ownerIds)
  const found = every.filter(notionMatches(query)).map(({ outSince: _outSince, ...row }): NotionRow => row)
  const headOf = (rows: readonly NotionRow[]) => ({
    title: notionKindWords[(rows[0] as NotionRow).kind].many,
    note: counted(rows.length, 'notion'),
  })
  return { ...inRuns(found, ({ kind }): NotionKind => kind, headOf), every }
}
