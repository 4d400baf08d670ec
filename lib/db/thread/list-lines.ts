import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { compareExact } from '#lib/stock/batch'
import type { Working } from '#lib/thread/stitches'
import type { Dyeing, ThreadLine } from '#lib/thread/thread'
import { database } from '../client'
import type { LinePutUp } from './add-thread'

export const lineColumns = {
  id: true,
  makerId: true,
  name: true,
  fibre: true,
  strands: true,
  putUpStrandTenths: true,
  putUpWord: true,
  dyeing: true,
  lotsMatter: true,
  working: true,
  maker: { select: { name: true } },
} as const

type LineRow = Omit<ThreadLine, 'makerName' | 'dyeing' | 'working'> & {
  dyeing: string
  working: string
  maker: { name: string }
}

export const lineOf = ({ maker, ...line }: LineRow): ThreadLine => ({
  ...line,
  makerName: maker.name,
  dyeing: line.dyeing as Dyeing,
  working: line.working as Working,
})

/** Every line, by maker and name as read aloud: case and accents make no difference unless nothing else does. */
export async function listLines(): Promise<ThreadLine[]> {
  const rows = await database().prisma.threadLine.findMany({ select: lineColumns })
  const inOrder = (a: string, b: string) => compareExact(textKey(a), textKey(b)) || compareExact(a, b)
  return rows.map(lineOf).sort((a, b) => inOrder(a.makerName, b.makerName) || inOrder(a.name, b.name) || compareExact(a.id, b.id))
}

export type LinePage = ThreadLine & LinePutUp & { version: number; threadCount: number }

/** One line with what a put-up weighs and costs, its version and how many threads it has, or null. */
export async function findLine(lineId: string): Promise<LinePage | null> {
  const row = await database().prisma.threadLine.findUnique({
    where: { id: lineId },
    select: {
      ...lineColumns,
      putUpMilligrams: true,
      priceMinor: true,
      version: true,
      _count: { select: { threads: { where: { goneAt: null } } } },
    },
  })
  if (!row) return null
  const { version, putUpMilligrams, priceMinor, _count, ...line } = row
  return { ...lineOf(line), putUpMilligrams, priceMinor, version, threadCount: _count.threads }
}
