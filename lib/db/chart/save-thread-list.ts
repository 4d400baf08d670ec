import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { type StitchTally, stitches } from '#lib/thread/stitches'
import { bulkInsert } from '../bulk-insert'
import { newId } from '../new-id'
import { write } from '../write'
import type { Write } from '../write-gate'
import type { ChartRefusal, NewThread } from './chart-refusal'
import { ensureThreads } from './ensure-threads'

/** One thread of a key line as a person names it. */
export type KeyThreadInput = {
  makerName: string
  /** Null: the maker's only line, or the only one that has the code. */
  lineName: string | null
  /** Exact text, zeros and all. */
  code: string
  name: string | null
  strands: number
  /** Put-ups in hundredths; null when the key states none. */
  statedHundredths: number | null
  /** Length of the put-up it was stated in, as sold; null takes the line's own. */
  putUpTenths: number | null
}

export type KeyLineInput = {
  symbol: string | null
  note: string | null
  /** Null when the key gives no counts. */
  tally: StitchTally | null
  /** One, or the several of a blend. */
  threads: readonly KeyThreadInput[]
}

export type ThreadListInput = {
  designId: string
  /** Null for a new list. */
  list: { id: string; version: number } | null
  name: string
  keyLines: readonly KeyLineInput[]
  /** See ensureThreads. */
  mayAdd: ReadonlySet<string> | 'all'
}

export type SaveListRefusal = Extract<
  ChartRefusal,
  { kind: 'no-such-design' | 'changed-meanwhile' | 'list-taken' | 'which-line' | 'new-threads' }
>

export type ThreadListSaved = { listId: string; version: number; added: NewThread[] }

/** Keep a thread list as it is given: its name, and its key lines replaced whole, in their order. Threads that are new are made. */
export function saveThreadList(input: ThreadListInput): Promise<Result<ThreadListSaved, SaveListRefusal>> {
  return write<ThreadListSaved, SaveListRefusal>((open) => saveThreadListIn(open, input))
}

/** The same as part of a larger write. */
export async function saveThreadListIn(open: Write, input: ThreadListInput): Promise<Result<ThreadListSaved, SaveListRefusal>> {
  const { tx, engine, touch } = open
  const { designId, list, name, keyLines, mayAdd } = input
  const design = await tx.design.findFirst({
    where: { id: designId, chart: { goneAt: null } },
    select: { threadLists: { select: { id: true, nameKey: true, position: true } } },
  })
  if (!design) return refused({ kind: 'no-such-design' })
  const nameKey = textKey(name)
  if (design.threadLists.some((other) => other.nameKey === nameKey && other.id !== list?.id))
    return refused({ kind: 'list-taken', name })

  const listId = list?.id ?? newId()
  if (list) {
    const claimed = await tx.threadList.updateMany({
      where: { id: list.id, version: list.version, designId },
      // Whoever saves it has looked it over.
      data: { name, nameKey, isIncomplete: false, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    await tx.keyLine.deleteMany({ where: { threadListId: list.id } })
  } else {
    const position = Math.max(-1, ...design.threadLists.map((other) => other.position)) + 1
    await tx.threadList.create({ data: { id: listId, designId, name, nameKey, position } })
  }

  const named = keyLines.flatMap(({ threads }, index) => threads.map((thread) => ({ ...thread, lineNumber: index + 1 })))
  const found = await ensureThreads(open, named, mayAdd)
  if (!found.ok) return found
  const rows = keyRows(listId, keyLines, found.value.threadIds)
  await bulkInsert(tx, engine, 'KeyLine', rows.keyLines)
  await bulkInsert(tx, engine, 'KeyLineThread', rows.threads)
  touch('list', listId)
  touch('design', designId)
  return ok({ listId, version: list ? list.version + 1 : 0, added: found.value.added })
}

/** @param threadIds  the threads of all lines one after another */
function keyRows(listId: string, keyLines: readonly KeyLineInput[], threadIds: readonly string[]) {
  const rows: { keyLines: Parameters<typeof bulkInsert>[3]; threads: Parameters<typeof bulkInsert>[3] } = {
    keyLines: [],
    threads: [],
  }
  let next = 0
  keyLines.forEach(({ symbol, note, tally, threads }, position) => {
    const id = newId()
    const counts = Object.fromEntries(stitches.map((stitch) => [stitch, tally?.[stitch] ?? 0]))
    rows.keyLines.push({ id, threadListId: listId, position, symbol, note, hasTally: tally !== null, ...counts })
    threads.forEach(({ strands, statedHundredths, putUpTenths }, index) => {
      rows.threads.push({
        id: newId(),
        keyLineId: id,
        position: index,
        threadId: threadIds[next++] as string,
        strands,
        statedHundredths,
        statedPutUpTenths: statedHundredths === null ? null : putUpTenths,
      })
    })
  })
  return rows
}
