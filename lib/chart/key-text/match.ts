import { textKey } from '#lib/quantity/text-key'
import type { KnownThread, NamedThread, ThreadMatch } from './reading'
import { nameKey, nameWords, type Vocabulary } from './vocabulary'

/** What the rest of the list says about a thread that names no maker or line itself. */
export type ListMakers = { maker: string | null; threadLine: string | null }

/** Signs that are taken for one another when print is read by machine. */
const confusable: Record<string, string[]> = {
  '0': ['O', 'o', 'D', 'Q'],
  O: ['0'],
  o: ['0'],
  D: ['0'],
  Q: ['0'],
  '1': ['l', 'I', '7', 'i'],
  l: ['1'],
  I: ['1'],
  i: ['1'],
  '|': ['1'],
  '5': ['S', 's', '6'],
  S: ['5'],
  s: ['5'],
  '8': ['B', '3', '6'],
  B: ['8'],
  '3': ['8'],
  '6': ['8', '5', 'G'],
  G: ['6'],
  '2': ['Z', 'z', '7'],
  Z: ['2'],
  z: ['2'],
  '7': ['1', '2'],
  '4': ['A'],
  A: ['4'],
  '9': ['g', 'q'],
  g: ['9'],
  q: ['9'],
}

/** Alike as names: 1 the same folded words, 0 nothing in common. */
export function nameLikeness(one: string, other: string): number {
  const [left, right] = [nameWords(one), nameWords(other)]
  if (left.length === 0 || right.length === 0) return 0
  if (left.join(' ') === right.join(' ')) return 1
  const [a, b] = [pairsOf(left.join(' ')), pairsOf(right.join(' '))]
  let shared = 0
  for (const pair of a) if (b.has(pair)) shared++
  const sorted = [...left].sort().join(' ') === [...right].sort().join(' ')
  return sorted ? 0.97 : (2 * shared) / (a.size + b.size)
}

function pairsOf(text: string): Set<string> {
  const pairs = new Set<string>()
  for (let at = -1; at < text.length; at++) pairs.add(`${text[at] ?? ' '}${text[at + 1] ?? ' '}`)
  return pairs
}

const isOfMaker = (thread: KnownThread, maker: string | null): boolean =>
  maker === null || nameKey(thread.maker) === nameKey(maker)
const isOfLine = (thread: KnownThread, line: string | null): boolean =>
  line === null || nameKey(thread.threadLine) === nameKey(line)

/** The thread's name as it may be printed: that of a hand-dyed thread is its code. */
const calledNames = ({ name, code }: KnownThread): string[] => [
  ...(name === null ? [] : [name]),
  ...(/\d/.test(code) ? [] : [code]),
]

const several = (threads: readonly KnownThread[]): ThreadMatch => ({
  kind: 'several',
  threadIds: threads.slice(0, 12).map(({ id }) => id),
})

/**
 * Which thread of the collection is meant.
 *
 * By its code where that is exact; a code that was read from a picture may be one confusable sign away from exactly one known thread, at
 * less confidence; `isTyped` says that it was not read from one. A name that agrees raises the confidence, one that does not lowers it. By name alone only where it is one thread's.
 */
export function matchThread(named: NamedThread, list: ListMakers, known: Vocabulary, isTyped = true): ThreadMatch {
  const maker = named.maker?.value ?? null
  const line = named.threadLine?.value ?? null
  const name = named.name?.value ?? null
  const certainty = Math.min(named.code?.confidence ?? 1, 1)
  const code = named.code?.value ?? null
  if (code !== null) {
    const exact = narrowed(known.byCode.get(code) ?? known.byCodeKey.get(textKey(code)) ?? [], maker, line, list)
    const byCode = decide(exact, name, maker !== null, certainty)
    if (byCode) return byCode
    if (!isTyped) {
      const mended = variants(code).flatMap((variant) => narrowed(known.byCode.get(variant) ?? [], maker, line, list))
      const unique = [...new Set(mended)]
      const agreeing =
        name === null
          ? unique
          : unique.filter((thread) => calledNames(thread).some((called) => nameLikeness(called, name) >= 0.6))
      const [only] = agreeing
      if (only && agreeing.length === 1)
        return {
          kind: 'known',
          threadId: only.id,
          confidence: name !== null ? 0.75 : 0.6,
          by: name !== null ? 'code and name' : 'code',
        }
    }
    // The code is none of this maker's: its name does not make it another.
    if (/\d/.test(code) && isTyped) return lackingOf(named)
  }
  const called = name ?? (code !== null && !/\d/.test(code) ? code : null)
  if (called !== null) {
    const byName = matchByName(called, maker, line, list, known, code !== null)
    if (byName) return byName
  }
  return lackingOf(named)
}

export const lackingOf = ({ maker, threadLine, code, name }: NamedThread): ThreadMatch => ({
  kind: 'new',
  lacks: [
    ...(maker ? [] : ['maker' as const]),
    ...(threadLine ? [] : ['thread line' as const]),
    ...(code || (name && !/\d/.test(name.value)) ? [] : ['code' as const]),
  ],
})

/** Of threads with a code, those the maker and line leave; the list's maker where the line names none and that leaves any. */
function narrowed(
  threads: readonly KnownThread[],
  maker: string | null,
  line: string | null,
  list: ListMakers,
): readonly KnownThread[] {
  const own = threads.filter((thread) => isOfMaker(thread, maker) && isOfLine(thread, line))
  if (own.length <= 1) return own
  const likely = own.filter((thread) => isOfMaker(thread, list.maker) && isOfLine(thread, list.threadLine))
  return likely.length > 0 ? likely : own
}

function decide(
  threads: readonly KnownThread[],
  name: string | null,
  isMakerSaid: boolean,
  certainty: number,
): ThreadMatch | null {
  if (threads.length === 0) return null
  const likeness = (thread: KnownThread) =>
    name === null ? 0 : Math.max(0, ...calledNames(thread).map((called) => nameLikeness(called, name)))
  if (threads.length > 1) {
    if (name === null) return several(threads)
    const ranked = threads.map((thread) => ({ thread, alike: likeness(thread) })).sort((a, b) => b.alike - a.alike)
    const [first, second] = ranked
    if (
      first &&
      ((first.alike === 1 && (second?.alike ?? 0) < 1) || (first.alike >= 0.75 && first.alike - (second?.alike ?? 0) >= 0.2))
    )
      return {
        kind: 'known',
        threadId: first.thread.id,
        confidence: Math.min(certainty, first.alike === 1 ? 0.95 : 0.82),
        by: 'code and name',
      }
    return several(threads)
  }
  const [thread] = threads as [KnownThread]
  const hasNames = name !== null && calledNames(thread).length > 0
  const alike = hasNames ? likeness(thread) : null
  const base = isMakerSaid ? 0.97 : 0.88
  const confidence = alike === null ? base : alike >= 0.9 ? 0.99 : alike >= 0.6 ? base - 0.05 : alike >= 0.35 ? 0.75 : 0.55
  return {
    kind: 'known',
    threadId: thread.id,
    confidence: Math.min(certainty, confidence),
    by: alike !== null && alike >= 0.6 ? 'code and name' : 'code',
  }
}

/** Codes one confusable sign away. */
function variants(code: string): string[] {
  if (code.length > 10) return []
  const found: string[] = []
  for (let at = 0; at < code.length; at++) {
    for (const sign of confusable[code.charAt(at)] ?? []) found.push(code.slice(0, at) + sign + code.slice(at + 1))
  }
  return found
}

function matchByName(
  name: string,
  maker: string | null,
  line: string | null,
  list: ListMakers,
  known: Vocabulary,
  hasCode: boolean,
): ThreadMatch | null {
  const isFitting = (thread: KnownThread) => isOfMaker(thread, maker) && isOfLine(thread, line)
  const exact = new Set(
    [...(known.byNameKey.get(nameKey(name)) ?? []), ...(known.byCodeKey.get(textKey(name)) ?? [])].filter(isFitting),
  )
  const narrowedDown =
    exact.size > 1 ? [...exact].filter((thread) => isOfMaker(thread, list.maker) && isOfLine(thread, list.threadLine)) : []
  const same = narrowedDown.length > 0 ? narrowedDown : [...exact]
  const [only] = same
  if (only && same.length === 1)
    return {
      kind: 'known',
      threadId: only.id,
      confidence: hasCode ? 0.6 : maker !== null ? 0.93 : 0.82,
      by: /\d/.test(only.code) ? 'name' : 'code',
    }
  if (same.length > 1) return several(same)
  if (name.length > 60) return null
  const near = known.names
    .search(name, { fuzzy: 0.2, combineWith: 'AND' })
    .slice(0, 40)
    .map(({ id }) => known.threads.get(id) as KnownThread)
    .filter(isFitting)
    .map((thread) => ({ thread, alike: Math.max(0, ...calledNames(thread).map((called) => nameLikeness(called, name))) }))
    .filter(({ alike }) => alike >= 0.72)
    .sort((a, b) => b.alike - a.alike)
  const [first, second] = near
  if (!first) return null
  if (second && first.alike - second.alike < 0.08) return several(near.map(({ thread }) => thread))
  return {
    kind: 'known',
    threadId: first.thread.id,
    confidence: Math.min(0.78, first.alike * (maker !== null ? 0.8 : 0.7)),
    by: 'name',
  }
}
