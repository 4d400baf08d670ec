import MiniSearch from 'minisearch'
import { textKey } from '#lib/quantity/text-key'
import type { KnownThread } from './reading'

/** A maker as it is known, and its lines, folded name → name. */
export type KnownMaker = { name: string; lines: Map<string, string> }

/** Words one after another that stand for something, found by their first word. */
export type Phrase<T> = { words: string[]; means: T }

/** The threads of a collection, indexed for reading. Built once by `vocabularyOf`. */
export type Vocabulary = {
  threads: ReadonlyMap<string, KnownThread>
  /** By the code exactly as it is written, former codes too. */
  byCode: ReadonlyMap<string, readonly KnownThread[]>
  /** By the code with case and accents folded: ECRU is Ecru. */
  byCodeKey: ReadonlyMap<string, readonly KnownThread[]>
  byNameKey: ReadonlyMap<string, readonly KnownThread[]>
  makers: ReadonlyMap<string, KnownMaker>
  makerPhrases: PhraseBook<string>
  /** Codes that are words: Ecru, Tarn Blue. */
  codePhrases: PhraseBook<string>
  namePhrases: PhraseBook<string>
  /** Threads by words of their name, for names that are spelt a little otherwise. */
  names: MiniSearch
}
export type PhraseBook<T> = ReadonlyMap<string, readonly Phrase<T>[]>

/** A name as words to compare: folded, signs left out. */
export const nameWords = (name: string): string[] =>
  textKey(name)
    .replace(/['’‘]/gu, '')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
export const nameKey = (name: string): string => nameWords(name).join(' ')

/** @param lines  makers and their lines that are known beside those of the threads */
export function vocabularyOf(
  threads: readonly KnownThread[],
  lines: readonly { maker: string; threadLine: string }[] = [],
): Vocabulary {
  const makers = new Map<string, KnownMaker>()
  for (const { maker, threadLine } of [...lines, ...threads]) {
    const known = makers.get(nameKey(maker)) ?? { name: maker, lines: new Map<string, string>() }
    known.lines.set(nameKey(threadLine), threadLine)
    makers.set(nameKey(maker), known)
  }
  const byCode = new Map<string, KnownThread[]>()
  const byCodeKey = new Map<string, KnownThread[]>()
  const byNameKey = new Map<string, KnownThread[]>()
  const wordCodes = new Set<string>()
  const wordNames = new Set<string>()
  const names = new MiniSearch<{ id: string; name: string }>({
    fields: ['name'],
    tokenize: nameWords,
    processTerm: (term) => term,
  })
  for (const thread of threads) {
    for (const code of new Set([thread.code, ...(thread.formerCodes ?? [])])) {
      add(byCode, code, thread)
      add(byCodeKey, textKey(code), thread)
      if (!/\d/.test(code)) wordCodes.add(code)
    }
    if (thread.name === null) continue
    add(byNameKey, nameKey(thread.name), thread)
    wordNames.add(thread.name)
  }
  names.addAll(threads.map(({ id, name, code }) => ({ id, name: name ?? (/\d/.test(code) ? '' : code) })))
  return {
    threads: new Map(threads.map((thread) => [thread.id, thread])),
    byCode,
    byCodeKey,
    byNameKey,
    makers,
    makerPhrases: phraseBook([...makers.values()].map(({ name }) => [name, name])),
    codePhrases: phraseBook([...wordCodes].map((code) => [code, code])),
    namePhrases: phraseBook([...wordNames].map((name) => [name, name])),
    names,
  }
}

function add<T>(index: Map<string, T[]>, key: string, value: T): void {
  const held = index.get(key)
  if (held) held.push(value)
  else index.set(key, [value])
}

/** Phrases by their first word, those of most words first. */
export function phraseBook<T>(phrases: readonly (readonly [string, T])[]): Map<string, Phrase<T>[]> {
  const book = new Map<string, Phrase<T>[]>()
  for (const [text, means] of phrases) {
    const words = nameWords(text)
    if (words.length > 0 && words.length <= 8) add(book, words[0] as string, { words, means })
  }
  for (const found of book.values()) found.sort((left, right) => right.words.length - left.words.length)
  return book
}
