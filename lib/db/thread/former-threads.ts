import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { formerCodeKey, formerMakerBegin } from '#lib/thread/former-code'
import type { Transaction } from '../client'

type Named = { makerName: string; lineName: string | null; code: string }

const formerColumns = {
  makerName: true,
  lineName: true,
  code: true,
  thread: {
    select: {
      id: true,
      code: true,
      lineId: true,
      goneAt: true,
      line: { select: { name: true, maker: { select: { name: true } } } },
    },
  },
} as const

/** At most so many makers are asked for at once. */
const makersAtOnce = 100

/**
 * Threads as they are called now, where maker, line and code were merged into another thread's, or the maker or line is spelt another way
 * now. What is on record under the name it is given is left as it is.
 */
export async function meantThreads<T extends Named>(
  tx: Pick<Transaction, 'formerThreadCode' | 'thread' | 'maker'>,
  named: readonly T[],
): Promise<T[]> {
  const makerNames = [...new Map(named.map(({ makerName }) => [textKey(makerName), makerName])).values()]
  const former = []
  for (let from = 0; from < makerNames.length; from += makersAtOnce) {
    const begins = makerNames
      .slice(from, from + makersAtOnce)
      .map((name) => ({ codeKey: { startsWith: formerMakerBegin(name) } }))
    former.push(...(await tx.formerThreadCode.findMany({ where: { OR: begins }, select: formerColumns, orderBy: { id: 'asc' } })))
  }
  if (former.length === 0) return [...named]
  const standing = await tx.maker.findMany({
    where: { nameKey: { in: makerNames.map(textKey) } },
    select: { nameKey: true, lines: { select: { nameKey: true } } },
  })
  const linesOf = new Map(standing.map(({ nameKey, lines }) => [nameKey, new Set(lines.map((line) => line.nameKey))]))
  const isOnRecord = async ({ makerName, lineName, code }: Named): Promise<boolean> =>
    (await tx.thread.count({
      where: {
        code,
        goneAt: null,
        line: { maker: { nameKey: textKey(makerName) }, ...(lineName !== null && { nameKey: textKey(lineName) }) },
      },
    })) > 0

  const meant: T[] = []
  for (const thread of named) {
    const { makerName, lineName, code } = thread
    const ofMaker = former.filter((row) => textKey(row.makerName) === textKey(makerName) && row.thread.goneAt === null)
    const ofLine = ofMaker.filter((row) => lineName === null || textKey(row.lineName) === textKey(lineName))
    const exact = ofLine.filter((row) =>
      lineName === null ? row.code === code : formerCodeKey(row) === formerCodeKey({ makerName, lineName, code }),
    )
    const [found, ...others] = new Map(exact.map((row) => [row.thread.id, row])).values()
    if (found && others.length === 0 && !(await isOnRecord(thread))) {
      const { line } = found.thread
      meant.push({ ...thread, makerName: line.maker.name, lineName: line.name, code: found.thread.code })
      continue
    }
    // A code nobody knew, of a maker or line that is spelt another way now.
    const isSpeltSo = linesOf.get(textKey(makerName))
    const isLineThere = isSpeltSo && (lineName === null || isSpeltSo.has(textKey(lineName)))
    const [only, ...more] = isLineThere ? [] : new Map(ofLine.map((row) => [row.thread.lineId, row])).values()
    const line = more.length === 0 ? only?.thread.line : undefined
    meant.push(line ? { ...thread, makerName: line.maker.name, lineName: line.name } : thread)
  }
  return meant
}

/** The thread that this code of a line became part of; null when the code was nobody's. */
export async function findFormerThread(
  tx: Pick<Transaction, 'formerThreadCode' | 'threadLine'>,
  { lineId, code }: { lineId: string; code: string },
): Promise<string | null> {
  const line = await tx.threadLine.findUnique({
    where: { id: lineId },
    select: { name: true, maker: { select: { name: true } } },
  })
  if (!line) return null
  const codeKey = formerCodeKey({ makerName: line.maker.name, lineName: line.name, code })
  const row = await tx.formerThreadCode.findFirst({ where: { codeKey, thread: { goneAt: null } }, select: { threadId: true } })
  return row?.threadId ?? null
}

/** The makers that threads of a maker, who is spelt so no more, are of now. */
export async function listFormerMakers(
  tx: Pick<Transaction, 'formerThreadCode'>,
  makerName: string,
): Promise<{ id: string; name: string }[]> {
  const rows = await tx.formerThreadCode.findMany({
    where: { codeKey: { startsWith: formerMakerBegin(makerName) }, thread: { goneAt: null } },
    select: { thread: { select: { line: { select: { maker: { select: { id: true, name: true } } } } } } },
  })
  return [...new Map(rows.map(({ thread }) => [thread.line.maker.id, thread.line.maker])).values()]
}
