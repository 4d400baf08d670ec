import 'server-only'
import { formerCodeKey } from '#lib/thread/former-code'
import { newId } from '../new-id'
import { readRows, type StepKeeper } from './keep-steps'
import { type MovingThread, readMovingThreads, sayOutright, touchKeys, uniteThreads } from './unite-threads'

type Line = MovingThread['line'] & { makerName: string }

/** Remember what a thread was called before its line or maker was spelt another way. */
export async function rememberCodes(keeper: StepKeeper, threads: readonly MovingThread[]): Promise<void> {
  const { tx } = keeper.write
  for (const { id, code, name, makerName, line } of threads) {
    const codeKey = formerCodeKey({ makerName, lineName: line.name, code })
    for (const row of await readRows(tx, 'formerThreadCode', { codeKey })) await keeper.drop('formerThreadCode', row)
    await keeper.add('formerThreadCode', { id: newId(), threadId: id, makerName, lineName: line.name, code, name, codeKey })
  }
}

/**
 * The threads of one line go under another, one by one: a code that both have is one thread, the others go over. The line given up is taken
 * away. Both are worked in as many strands.
 */
export async function uniteLines(
  keeper: StepKeeper,
  { kept, gone }: { kept: Line; gone: Line },
): Promise<{ counts: Record<string, number>; batchIds: string[] }> {
  const { tx } = keeper.write
  const mine = new Map((await readMovingThreads(tx, kept.id)).map((thread) => [thread.code, thread]))
  const counts = { threads: 0, united: 0, batches: 0 }
  const batchIds: string[] = []
  const going: MovingThread[] = []
  for (const thread of await readMovingThreads(tx, gone.id)) {
    const same = mine.get(thread.code)
    if (same) {
      const united = await uniteThreads(keeper, { kept: same, gone: thread })
      batchIds.push(...united.batchIds)
      counts.batches += united.counts.batches ?? 0
      counts.united++
      continue
    }
    await sayOutright(keeper, thread.id, gone, kept)
    await touchKeys(keeper, thread.id)
    going.push(thread)
    keeper.touch('thread', thread.id)
  }
  await keeper.change(
    'thread',
    going.map(({ id }) => ({ id })),
    { lineId: gone.id },
    { lineId: kept.id },
  )
  await rememberCodes(keeper, going)
  const offers = (await readRows(tx, 'threadOffer', { lineId: gone.id })).map(({ id }) => ({ id: String(id) }))
  await keeper.change('threadOffer', offers, { lineId: gone.id }, { lineId: kept.id })
  counts.threads = going.length
  for (const row of await readRows(tx, 'threadLine', { id: gone.id })) await keeper.drop('threadLine', row)
  keeper.touch('line', gone.id)
  keeper.touch('line', kept.id)
  return { counts, batchIds }
}
