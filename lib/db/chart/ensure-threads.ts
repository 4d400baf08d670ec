import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { isCloseCode } from '#lib/thread/code-order'
import { newId } from '../new-id'
import { ensureMaker } from '../thread/ensure-maker'
import { meantThreads } from '../thread/former-threads'
import type { Write } from '../write-gate'
import type { ChartRefusal, NewThread } from './chart-refusal'

/** A thread as a key names it. */
export type NamedThread = {
  /** The key line it stands in, from 1. */
  lineNumber: number
  makerName: string
  /** Null: the maker's only line, or the only one that has the code. */
  lineName: string | null
  /** Exact text, zeros and all. */
  code: string
  name: string | null
  /** Length of the put-up the key speaks of, as sold: what a line that is new is taken to be sold in. */
  putUpTenths: number | null
}

/** Names a thread apart from how its maker and line are spelt. */
export const newThreadKey = ({ makerName, lineName, code }: Pick<NewThread, 'makerName' | 'lineName' | 'code'>): string =>
  JSON.stringify([textKey(makerName), textKey(lineName), code])

/** What a new line is taken to be: six strands, skeins of 8 m (common practice, no published source). */
export const usualLine = { strands: 6, putUpWord: 'skein', dyeing: 'solid', lotsMatter: false, working: 'rows' } as const
export const usualPutUpTenths = 80_000
/** The name of the line of a maker none of whose lines was ever named. */
export const unnamedLine = 'Thread'

type Line = { id: string | null; name: string; putUpStrandTenths: number; codes: Map<string, HeldThread> }
type HeldThread = { id: string; name: string | null; isGone: boolean }
type Maker = { id: string | null; name: string; lines: Map<string, Line> }

/**
 * The threads a key names, in its order. Those that are new are made, with maker and line where these are new too; a thread that was
 * removed comes back. A colour's name fills a gap and does not overrule the one on record.
 *
 * @param mayAdd  by `newThreadKey`: the new threads that are known to be meant. Others are refused, all at once, as they are as
 *   likely a slip; `all` makes whatever is new.
 */
export async function ensureThreads(
  open: Write,
  named: readonly NamedThread[],
  mayAdd: ReadonlySet<string> | 'all',
): Promise<Result<{ threadIds: string[]; added: NewThread[] }, Extract<ChartRefusal, { kind: 'which-line' | 'new-threads' }>>> {
  const meant = await meantThreads(open.tx, named)
  const makers = await readMakers(open, meant)
  const added = new Map<string, NewThread>()
  const placed: { maker: Maker; line: Line; thread: NamedThread }[] = []
  for (const thread of meant) {
    const makerKey = textKey(thread.makerName)
    const maker = makers.get(makerKey) ?? { id: null, name: thread.makerName, lines: new Map() }
    makers.set(makerKey, maker)
    const line = lineOf(maker, thread)
    if (!line)
      return refused({
        kind: 'which-line',
        lineNumber: thread.lineNumber,
        makerName: maker.name,
        code: thread.code,
        lineNames: [...maker.lines.values()].map(({ name }) => name).sort(),
      })
    placed.push({ maker, line, thread })
    if (line.codes.get(thread.code)?.isGone === false) continue
    const fresh: NewThread = {
      makerName: maker.name,
      lineName: line.name,
      code: thread.code,
      isNewMaker: maker.id === null,
      isNewLine: line.id === null,
      closeCodes: [...line.codes.keys()].filter((code) => isCloseCode(thread.code, code)).sort(),
    }
    added.set(newThreadKey(fresh), fresh)
  }
  const unasked = [...added].filter(([key]) => mayAdd !== 'all' && !mayAdd.has(key))
  if (unasked.length > 0) return refused({ kind: 'new-threads', threads: [...added.values()] })

  const threadIds: string[] = []
  const made = new Map<string, { id: string; lineId: string; code: string; name: string | null }>()
  for (const { maker, line, thread } of placed) {
    const { code, name } = thread
    maker.id ??= (await ensureMaker(open, maker.name)).id
    line.id ??= await makeLine(open, maker.id, line)
    const held = line.codes.get(code)
    const id = held?.id ?? newId()
    if (!held || made.has(id)) made.set(id, { id, lineId: line.id, code, name: held?.name ?? name })
    else await mend(open, held, name)
    line.codes.set(code, { id, name: held?.name ?? name, isGone: false })
    threadIds.push(id)
  }
  await open.tx.thread.createMany({ data: [...made.values()] })
  for (const id of made.keys()) open.touch('thread', id)
  return ok({ threadIds, added: [...added.values()] })
}

/** The makers named, with all their lines and of each the codes that are like one of those asked for, by folded name. */
async function readMakers({ tx }: Write, named: readonly NamedThread[]): Promise<Map<string, Maker>> {
  const rows = await tx.maker.findMany({
    where: { nameKey: { in: [...new Set(named.map(({ makerName }) => textKey(makerName)))] } },
    select: {
      id: true,
      name: true,
      nameKey: true,
      lines: { select: { id: true, name: true, nameKey: true, putUpStrandTenths: true } },
    },
  })
  const lineIds = rows.flatMap(({ lines }) => lines.map(({ id }) => id))
  const threads = await tx.thread.findMany({
    where: { lineId: { in: lineIds } },
    select: { id: true, lineId: true, code: true, name: true, goneAt: true },
  })
  const codesOf = new Map(lineIds.map((id) => [id, new Map<string, HeldThread>()]))
  for (const { id, lineId, code, name, goneAt } of threads) codesOf.get(lineId)?.set(code, { id, name, isGone: goneAt !== null })
  return new Map(
    rows.map(({ id, name, nameKey, lines }) => [
      nameKey,
      {
        id,
        name,
        lines: new Map(
          lines.map(({ nameKey: lineKey, ...line }) => [lineKey, { ...line, codes: codesOf.get(line.id) ?? new Map() }]),
        ),
      },
    ]),
  )
}

/** The line meant, added to the maker where it is new; null when it was not said and cannot be told. */
function lineOf(maker: Maker, { lineName, code, putUpTenths }: NamedThread): Line | null {
  if (lineName === null && maker.lines.size > 0) {
    const lines = [...maker.lines.values()]
    const having = lines.length === 1 ? lines : lines.filter(({ codes }) => codes.get(code)?.isGone === false)
    return having.length === 1 ? (having[0] as Line) : null
  }
  const name = lineName ?? unnamedLine
  const known = maker.lines.get(textKey(name))
  if (known) return known
  const putUpStrandTenths = (putUpTenths ?? usualPutUpTenths) * usualLine.strands
  const made: Line = { id: null, name, putUpStrandTenths, codes: new Map() }
  maker.lines.set(textKey(name), made)
  return made
}

async function makeLine({ tx, touch }: Write, makerId: string, { name, putUpStrandTenths }: Line): Promise<string> {
  const id = newId()
  await tx.threadLine.create({ data: { id, makerId, name, nameKey: textKey(name), ...usualLine, putUpStrandTenths } })
  touch('line', id)
  return id
}

/** A thread that was removed comes back, and a missing name is filled in. */
async function mend({ tx, touch }: Write, held: HeldThread, name: string | null): Promise<void> {
  const isNameMissing = held.name === null && name !== null
  if (!held.isGone && !isNameMissing) return
  await tx.thread.update({
    where: { id: held.id },
    data: { goneAt: null, ...(isNameMissing ? { name } : {}), version: { increment: 1 } },
  })
  touch('thread', held.id)
}
