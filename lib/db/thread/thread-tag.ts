import 'server-only'
import type { Lab } from '#lib/colour/lab'
import type { Dyeing } from '#lib/thread/thread'
import { database } from '../client'
import { labOf } from '../lab-of'

/** A thread as a list names it. */
export type ThreadTag = {
  id: string
  makerName: string
  code: string
  name: string | null
  lab: Lab | null
  dyeing: Dyeing
  strands: number
  putUpWord: string
}

export const threadTagColumns = {
  id: true,
  code: true,
  name: true,
  labL: true,
  labA: true,
  labB: true,
  line: { select: { dyeing: true, strands: true, putUpWord: true, maker: { select: { name: true } } } },
} as const

type TagRow = {
  id: string
  code: string
  name: string | null
  labL: number | null
  labA: number | null
  labB: number | null
  line: { dyeing: string; strands: number; putUpWord: string; maker: { name: string } }
}

export const threadTagOf = ({ id, code, name, line, ...colour }: TagRow): ThreadTag => ({
  id,
  makerName: line.maker.name,
  code,
  name,
  lab: labOf(colour),
  dyeing: line.dyeing as Dyeing,
  strands: line.strands,
  putUpWord: line.putUpWord,
})

/** Threads by id, named in full. */
export async function readThreadTags(threadIds: readonly string[]): Promise<Map<string, ThreadTag>> {
  const rows = await database().prisma.thread.findMany({
    where: { id: { in: [...threadIds] } },
    select: threadTagColumns,
  })
  return new Map(rows.map((row) => [row.id, threadTagOf(row)]))
}
