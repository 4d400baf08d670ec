import { textKey } from '#lib/quantity/text-key'
import { codeKey } from './code-order'

/** A thread on record by its names. */
export type NamedThread = {
  threadId: string
  lineId: string
  makerName: string
  lineName: string
  code: string
  name: string | null
}

/** `near`: threads whose code would be the same but for leading zeros, case, spaces or dashes. */
export type FoundThread =
  | { kind: 'found'; threadId: string }
  | { kind: 'several'; threadIds: string[] }
  | { kind: 'none'; near: string[] }

const longestText = 200
const mostWords = 16
const mostNear = 5

/** Finds the one thread a text names: `0017`, `Larkholm 0017`, `Larkholm stranded 0017 Straw`. Codes are exact, names however spelt. */
export class ThreadNames {
  readonly #byCode = new Map<string, NamedThread[]>()
  readonly #byFoldedCode = new Map<string, NamedThread[]>()

  constructor(threads: Iterable<NamedThread>) {
    for (const thread of threads) {
      push(this.#byCode, thread.code, thread)
      push(this.#byFoldedCode, codeKey(thread.code), thread)
    }
  }

  /** @param lineId  the line meant where the text is a bare code */
  find(text: string, lineId: string | null): FoundThread {
    const words = text.slice(0, longestText).trim().split(/\s+/).slice(0, mostWords)
    const found = unique(this.#readings(words, this.#byCode, (code) => code, lineId))
    const only = found[0]
    if (found.length === 1 && only !== undefined) return { kind: 'found', threadId: only }
    if (found.length > 1) return { kind: 'several', threadIds: found.slice(0, mostNear) }
    return { kind: 'none', near: unique(this.#readings(words, this.#byFoldedCode, codeKey, lineId)).slice(0, mostNear) }
  }

  /** Every way to read the words as maker, line, code and colour name, of which only the code must be there. */
  *#readings(
    words: readonly string[],
    byCode: ReadonlyMap<string, NamedThread[]>,
    keyOf: (code: string) => string,
    lineId: string | null,
  ): Generator<string> {
    for (let from = 0; from < words.length; from++) {
      for (let to = from + 1; to <= words.length; to++) {
        for (const thread of byCode.get(keyOf(words.slice(from, to).join(' '))) ?? []) {
          const before = textKey(words.slice(0, from).join(' '))
          const after = textKey(words.slice(to).join(' '))
          const { makerName, lineName, name } = thread
          const isItsLine =
            before === ''
              ? lineId === null || thread.lineId === lineId
              : [makerName, lineName, `${makerName} ${lineName}`].some((names) => textKey(names) === before)
          if (isItsLine && (after === '' || (name !== null && textKey(name) === after))) yield thread.threadId
        }
      }
    }
  }
}

function push<T>(map: Map<string, T[]>, key: string, value: T): void {
  const there = map.get(key)
  if (there) there.push(value)
  else map.set(key, [value])
}

const unique = (ids: Iterable<string>): string[] => [...new Set(ids)].sort()

/** Somebody's opinion: `otherThreadId` will do for `threadId`. One way; two are never joined into a third. */
export type OpinionPair = { threadId: string; otherThreadId: string }

export type OpinionRow = { rowNumber: number; cells: readonly string[] }

export type UnreadRow = OpinionRow &
  (
    | { kind: 'not-two-threads' }
    | { kind: 'no-such-thread'; text: string; near: string[] }
    | { kind: 'several-threads'; text: string; threadIds: string[] }
    | { kind: 'same-thread'; threadId: string }
    | { kind: 'said-twice'; pair: OpinionPair }
  )

export type ReadOpinions = {
  matched: (OpinionPair & { rowNumber: number })[]
  unmatched: UnreadRow[]
}

/**
 * Read a list of what stands for what: a row's first half names a thread, its second half another, in two cells, or in four or six (maker
 * and code, or maker, line and code, of each). A row that does not read is kept aside with its reason and loses no other.
 *
 * @param lines  The line meant by a bare code on either side.
 */
export function readOpinions(
  rows: Iterable<OpinionRow>,
  names: ThreadNames,
  lines: { lineId: string | null; otherLineId: string | null },
): ReadOpinions {
  const read: ReadOpinions = { matched: [], unmatched: [] }
  const said = new Set<string>()
  for (const row of rows) {
    const cells = row.cells.map((cell) => cell.trim())
    while (cells.length > 2 && cells.at(-1) === '') cells.pop()
    const half = cells.length / 2
    const texts = [cells.slice(0, half), cells.slice(half)].map((some) => some.filter((cell) => cell !== '').join(' '))
    const [text, otherText] = texts
    if (!Number.isInteger(half) || half > 3 || !text || !otherText) {
      read.unmatched.push({ ...row, kind: 'not-two-threads' })
      continue
    }
    const one = names.find(text, lines.lineId)
    const other = names.find(otherText, lines.otherLineId)
    const wrong = [
      { text, found: one },
      { text: otherText, found: other },
    ].find(({ found }) => found.kind !== 'found')
    if (wrong?.found.kind === 'none')
      read.unmatched.push({ ...row, kind: 'no-such-thread', text: wrong.text, near: wrong.found.near })
    if (wrong?.found.kind === 'several')
      read.unmatched.push({ ...row, kind: 'several-threads', text: wrong.text, threadIds: wrong.found.threadIds })
    if (one.kind !== 'found' || other.kind !== 'found') continue
    const pair = { threadId: one.threadId, otherThreadId: other.threadId }
    const key = JSON.stringify([pair.threadId, pair.otherThreadId])
    if (pair.threadId === pair.otherThreadId) read.unmatched.push({ ...row, kind: 'same-thread', threadId: pair.threadId })
    else if (said.has(key)) read.unmatched.push({ ...row, kind: 'said-twice', pair })
    else read.matched.push({ ...pair, rowNumber: row.rowNumber })
    said.add(key)
  }
  return read
}
