import 'server-only'
import type { ColourFamily } from '#lib/colour/family'
import type { Lab, LabCertainty } from '#lib/colour/lab'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import type { ThreadLine } from '#lib/thread/thread'
import { newId } from '../new-id'
import { write } from '../write'
import type { Write } from '../write-gate'
import { ensureMaker } from './ensure-maker'
import { findFormerThread } from './former-threads'
import type { ThreadRefusal } from './thread-refusal'

/** What a line is like. `name` is empty for a maker with one nameless line. */
export type LineFacts = Omit<ThreadLine, 'id' | 'makerId'> & LinePutUp

/** What is known of one put-up, where anybody weighed or bought it. */
export type LinePutUp = {
  /** Thread in a full one, without band or core. */
  putUpMilligrams: number | null
  priceMinor: number | null
}

export type ThreadFacts = {
  /** Exact text: 0017 is not 17. */
  code: string
  name: string | null
  lab: Lab | null
  /** How `lab` is known; kept only with one. */
  labCertainty: LabCertainty | null
  /** A person's own word for the family of the colour. */
  family: ColourFamily | null
  isLeaving: boolean
  note: string | null
  minimumPutUps: number | null
}

export const threadData = ({ lab, labCertainty, ...facts }: ThreadFacts) => ({
  ...facts,
  labCertainty: lab && labCertainty,
  labL: lab?.L ?? null,
  labA: lab?.a ?? null,
  labB: lab?.b ?? null,
})

async function addLine(writing: Write, facts: LineFacts): Promise<Result<string, ThreadRefusal>> {
  const { tx, touch } = writing
  const { makerName, ...line } = facts
  const maker = await ensureMaker(writing, makerName)
  const nameKey = textKey(line.name)
  const known = await tx.threadLine.findUnique({ where: { makerId_nameKey: { makerId: maker.id, nameKey } } })
  if (known) return refused({ kind: 'line-taken', lineId: known.id, makerName: maker.name, lineName: known.name })
  const id = newId()
  await tx.threadLine.create({ data: { ...line, id, makerId: maker.id, nameKey } })
  touch('line', id)
  return ok(id)
}

/**
 * Add a thread to a line, or with a new line and, where it is new too, its maker. A thread that was removed comes back with its
 * history under the same code.
 */
export function addThread(
  input: ThreadFacts & { line: { id: string } | LineFacts },
): Promise<Result<{ threadId: string }, ThreadRefusal>> {
  return write<{ threadId: string }, ThreadRefusal>(async (writing) => {
    const { tx, touch } = writing
    const { line, ...facts } = input
    let lineId: string
    if ('id' in line) {
      lineId = line.id
      if ((await tx.threadLine.count({ where: { id: lineId } })) === 0) return refused({ kind: 'no-such-line', lineId })
    } else {
      const added = await addLine(writing, line)
      if (!added.ok) return added
      lineId = added.value
    }
    const known = await tx.thread.findUnique({
      where: { lineId_code: { lineId, code: facts.code } },
      select: { id: true, goneAt: true },
    })
    if (known && known.goneAt === null) return refused({ kind: 'code-taken', threadId: known.id, code: facts.code })
    // It was merged into another, which has its stock and its history.
    const mergedInto = known ? null : await findFormerThread(tx, { lineId, code: facts.code })
    if (mergedInto !== null) return refused({ kind: 'code-taken', threadId: mergedInto, code: facts.code })
    const data = threadData(facts)
    const threadId = known?.id ?? newId()
    if (known) await tx.thread.update({ where: { id: threadId }, data: { ...data, goneAt: null, version: { increment: 1 } } })
    else await tx.thread.create({ data: { ...data, id: threadId, lineId } })
    touch('thread', threadId)
    return ok({ threadId })
  })
}
