import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { Write } from '../write-gate'
import type { LineFacts } from './add-thread'
import { ensureMaker } from './ensure-maker'
import type { ThreadRefusal } from './thread-refusal'

/** A maker's only line takes the name along; a line of one among several goes to the maker of the new name. */
async function makerFor(writing: Write, from: { id: string; name: string; lineCount: number }, name: string): Promise<string> {
  const { tx, touch } = writing
  const nameKey = textKey(name)
  const known = await tx.maker.findUnique({ where: { nameKey }, select: { id: true } })
  const isRespelt = known?.id === from.id
  if (known && !isRespelt) return known.id
  if (!isRespelt && from.lineCount > 1) return (await ensureMaker(writing, name)).id
  if (name !== from.name) {
    await tx.maker.update({ where: { id: from.id }, data: { name, nameKey, version: { increment: 1 } } })
    touch('maker', from.id)
  }
  return from.id
}

/**
 * Change what a line is like, for all its threads. Lengths of stock are kept in lengths of one strand, so the number of strands is
 * fixed once stock or stated amounts of the line are on record.
 */
export function editLine(input: LineFacts & { lineId: string; version: number }): Promise<Result<null, ThreadRefusal>> {
  return write<null, ThreadRefusal>(async (writing) => {
    const { tx, touch } = writing
    const { lineId, version, makerName, ...facts } = input
    const line = await tx.threadLine.findUnique({
      where: { id: lineId },
      select: { strands: true, maker: { select: { id: true, name: true, _count: { select: { lines: true } } } } },
    })
    if (!line) return refused({ kind: 'no-such-line', lineId })
    if (facts.strands !== line.strands) {
      const [batchCount, statedCount] = [
        await tx.batch.count({ where: { thread: { lineId }, goneAt: null } }),
        await tx.keyLineThread.count({ where: { thread: { lineId }, statedHundredths: { not: null } } }),
      ]
      if (batchCount + statedCount > 0) return refused({ kind: 'strands-in-use', batchCount, statedCount })
    }
    const { id, name, _count } = line.maker
    const makerId = await makerFor(writing, { id, name, lineCount: _count.lines }, makerName)
    const nameKey = textKey(facts.name)
    const namesake = await tx.threadLine.findUnique({
      where: { makerId_nameKey: { makerId, nameKey } },
      select: { id: true, name: true },
    })
    if (namesake && namesake.id !== lineId)
      return refused({ kind: 'line-taken', lineId: namesake.id, makerName, lineName: namesake.name })
    const claimed = await tx.threadLine.updateMany({
      where: { id: lineId, version },
      data: { ...facts, nameKey, makerId, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('line', lineId)
    if (makerId !== id && _count.lines === 1) {
      await tx.maker.delete({ where: { id } })
      touch('maker', id)
    }
    return ok(null)
  })
}
