import 'server-only'
import type { ListNeeds } from '#lib/coverage/need-columns'
import { type NeedIndex, NeedIndexBuilder } from '#lib/coverage/need-index'
import type { ReadRows } from '../read-snapshot'
import { changeRowsKept } from '../write-gate'
import { setNeeds } from './answers'
import { changedIds, designsOf } from './changed-ids'
import { readNeedFile } from './need-file'
import { readNeeds } from './read-designs'

export type NeedContext = Parameters<typeof readNeeds>[2]

/**
 * What every list needs: from the snapshot of an earlier run where it can be trusted, else from the database.
 *
 * @returns `keptRevision`: the one the snapshot was made at, null when it was of no use
 */
export async function loadNeeds(
  rows: ReadRows,
  url: string,
  revision: number,
  context: NeedContext,
): Promise<{ index: NeedIndex; keptRevision: number | null }> {
  const kept = await readKeptNeeds(rows, url, revision, context)
  if (kept) return { index: kept.index, keptRevision: kept.revision }
  return { index: await readAllNeeds(rows, context), keptRevision: null }
}

/** What every list needs, as the database has it. */
export async function readAllNeeds(rows: ReadRows, context: NeedContext): Promise<NeedIndex> {
  const builder = new NeedIndexBuilder(context.lineOfThread.keys())
  for await (const list of readNeeds(rows, null, context)) builder.add(list)
  return builder.finish()
}

/** The needs kept from an earlier run, brought up to date; null when there are none to be trusted. */
export async function readKeptNeeds(
  rows: ReadRows,
  url: string,
  revision: number,
  context: NeedContext,
): Promise<{ index: NeedIndex; revision: number } | null> {
  const kept = await readNeedFile(rows, url, context.settings, revision)
  if (!kept || revision - kept.revision > changeRowsKept) return null
  const ids = await changedIds(rows, kept.revision)
  // Which lines there were is not known any more: one of them may be another now.
  if (ids === null || ['everything', 'setting', 'line'].some((noun) => ids.has(noun))) return null
  for (const threadId of context.lineOfThread.keys()) kept.index.addThread(threadId)
  // Of equal texts one is enough: the world's own.
  const keptIds = kept.index.packed.designIds
  for (const [row, id] of keptIds.entries()) keptIds[row] = context.designs.get(id)?.design.id ?? id
  const designIds = await designsOf(rows, (noun) => ids.get(noun) ?? [])
  const lists: ListNeeds[] = []
  for await (const list of readNeeds(rows, designIds, context)) lists.push(list)
  setNeeds(kept.index, designIds, lists)
  return kept
}
