import 'server-only'
import type { Lab } from '#lib/colour/lab'
import { textKey } from '#lib/quantity/text-key'
import { compareExact } from '#lib/stock/batch'
import { compareCodes } from '#lib/thread/code-order'
import type { ThreadLine } from '#lib/thread/thread'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { labOf } from '../lab-of'
import { listLines } from '../thread/list-lines'

/** A thread as lists of what to buy show it. */
export type BoughtThread = {
  id: string
  code: string
  name: string | null
  lab: Lab | null
  line: ThreadLine
  /** What one put-up of its line costs. */
  priceMinor: number | null
  isLeaving: boolean
}

/**
 * Threads by id, removed ones too: an order may still name them. Threads and lines are read apart, since a relation of many rows is
 * asked for with more parameters than SQLite takes.
 */
export async function readBoughtThreads(where: Prisma.ThreadWhereInput): Promise<Map<string, BoughtThread>> {
  const { prisma } = database()
  const [lines, prices, rows] = await Promise.all([
    listLines(),
    prisma.threadLine.findMany({ select: { id: true, priceMinor: true } }),
    prisma.thread.findMany({
      where,
      select: { id: true, lineId: true, code: true, name: true, labL: true, labA: true, labB: true, isLeaving: true },
    }),
  ])
  const lineById = new Map(lines.map((line) => [line.id, line]))
  const priceOf = new Map(prices.map(({ id, priceMinor }) => [id, priceMinor]))
  return new Map(
    rows.map(({ lineId, labL, labA, labB, ...thread }) => [
      thread.id,
      {
        ...thread,
        lab: labOf({ labL, labA, labB }),
        line: lineById.get(lineId) as ThreadLine,
        priceMinor: priceOf.get(lineId) ?? null,
      },
    ]),
  )
}

/** By maker and line as read aloud, then the code as in a drawer. */
export const byMakerAndCode = (a: BoughtThread, b: BoughtThread): number =>
  compareExact(textKey(a.line.makerName), textKey(b.line.makerName)) ||
  compareExact(a.line.makerId, b.line.makerId) ||
  compareExact(textKey(a.line.name), textKey(b.line.name)) ||
  compareExact(a.line.id, b.line.id) ||
  compareCodes(a.code, b.code) ||
  compareExact(a.id, b.id)

/** At most so many ids go into one query: SQLite takes 999 parameters. */
const idsAtOnce = 500

/** Ask in parts for more ids than one query takes. */
export async function inParts<T>(ids: readonly string[], ask: (part: string[]) => Promise<T[]>): Promise<T[]> {
  const parts: string[][] = []
  for (let from = 0; from < ids.length; from += idsAtOnce) parts.push(ids.slice(from, from + idsAtOnce))
  return (await Promise.all(parts.map(ask))).flat()
}
