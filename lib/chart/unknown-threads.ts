import { textKey } from '../quantity/text-key'
import type { KeyReading, ReadKeyLine } from './key-text/reading'
import type { LinePlace } from './key-text/teach'
import { linesOf } from './reading-fields'

/** A thread that is not on record, as the text names it; `key` names it apart from how its maker is spelt. */
export type UnknownThread = {
  key: string
  makerName: string
  /** Null: the text names no line. */
  lineName: string | null
  code: string
  name: string | null
  /** Where it stands. */
  places: LinePlace[]
}

/** A maker's line that would be new with them. */
export type UnknownLine = { key: string; makerName: string; lineName: string | null; isNewMaker: boolean; threadCount: number }

type ReadThread = ReadKeyLine['threads'][number]

/** Names a thread that would be new; null for one that is known, or that names too little to be added. */
export function unknownKey({ named, match }: ReadThread): string | null {
  if (match.kind !== 'new' || !named.maker?.value || !named.code?.value) return null
  return unknownKeyOf({ makerName: named.maker.value, lineName: named.threadLine?.value ?? null, code: named.code.value })
}

/** Names a thread apart from how its maker and line are spelt. */
export const unknownKeyOf = ({ makerName, lineName, code }: Pick<UnknownThread, 'makerName' | 'lineName' | 'code'>): string =>
  JSON.stringify([textKey(makerName), textKey(lineName ?? ''), code])

/** The threads of a reading that would be new, each once, in the order they come. */
export function unknownThreads(reading: KeyReading): UnknownThread[] {
  const found = new Map<string, UnknownThread>()
  for (const { line, place } of linesOf(reading)) {
    for (const thread of line.threads) {
      const key = unknownKey(thread)
      if (key === null) continue
      const { maker, threadLine, code, name } = thread.named
      const known = found.get(key)
      if (known) known.places.push(place)
      else
        found.set(key, {
          ...{ key, makerName: maker?.value ?? '', lineName: threadLine?.value ?? null },
          ...{ code: code?.value ?? '', name: name?.value ?? null, places: [place] },
        })
    }
  }
  return [...found.values()]
}

export const lineKey = ({ makerName, lineName }: { makerName: string; lineName: string | null }): string =>
  JSON.stringify([textKey(makerName), textKey(lineName ?? '')])

/**
 * The lines these threads would bring along. A thread that names no line is taken to be of its maker's only one.
 *
 * @param known  the lines on record
 */
export function unknownLines(
  threads: readonly UnknownThread[],
  known: readonly { makerName: string; name: string }[],
): UnknownLine[] {
  const linesOfMaker = new Map<string, Set<string>>()
  for (const { makerName, name } of known) {
    const makerKey = textKey(makerName)
    linesOfMaker.set(makerKey, (linesOfMaker.get(makerKey) ?? new Set()).add(textKey(name)))
  }
  const found = new Map<string, UnknownLine>()
  for (const { makerName, lineName } of threads) {
    const held = linesOfMaker.get(textKey(makerName))
    if (held && (lineName === null || held.has(textKey(lineName)))) continue
    const key = lineKey({ makerName, lineName })
    const line = found.get(key) ?? { key, makerName, lineName, isNewMaker: held === undefined, threadCount: 0 }
    found.set(key, { ...line, threadCount: line.threadCount + 1 })
  }
  return [...found.values()]
}
