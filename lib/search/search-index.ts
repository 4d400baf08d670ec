import MiniSearch, { type QueryCombination, type SearchResult } from 'minisearch'
import { textKey } from '#lib/quantity/text-key'
import { codeKey, isCloseCode } from '#lib/thread/code-order'

export const searchNouns = ['chart', 'design', 'thread', 'cloth', 'notion', 'place', 'project'] as const
export type SearchNoun = (typeof searchNouns)[number]

export type SearchEntry = {
  /** The noun and its id: `thread:0197…`. */
  id: string
  noun: SearchNoun
  title: string
  /** Other words it goes by: designers, themes, maker, line, names. */
  also: readonly string[]
  /** A thread's code, a place's or a cloth piece's label: what a person reads off and types whole. */
  code?: string
  /** Labels of its home and current places. */
  places?: readonly string[]
}

export type SearchHit = {
  id: string
  noun: SearchNoun
  title: string
  /** `exact`: its code or label is what was asked for; `close`: nearly (17 for 0017 or 17A); `words`: by its words. */
  match: 'exact' | 'close' | 'words'
  score: number
  /** The words of the entry that matched, folded. */
  terms: string[]
}

export type SearchAnswer = {
  /** Best first. */
  hits: SearchHit[]
  /** The same hits by noun, the noun of the best hit first. */
  groups: { noun: SearchNoun; hits: SearchHit[] }[]
  /** How many there are in all, also beyond the limit. */
  found: number
  /** False when no entry had all the words, so that any of them was enough. */
  hasAllWords: boolean
}

/** Chosen by trial: a code weighs most, then the title; being in a place of that label says little about a thing. */
const boost = { code: 4, title: 3, also: 1, places: 0.4 }
/** Share of a word's letters that may be wrong, from four letters on. */
const fuzziness = 0.2
const fewestFuzzyLetters = 4
/** Two neighbouring letters swapped are one slip of the fingers, but two wrong letters by the count above, so they are tried apart. */
const swapWeight = 0.45
/** The first letter is seldom the wrong one. By trial: with 0.6 some 11 of 1,000 misspelt words more bring their title among the first ten. */
const otherFirstLetterWeight = 0.6

const nothingFound: SearchAnswer = { hits: [], groups: [], found: 0, hasAllWords: true }

/**
 * Everything that can be found, in memory. Accents and case make no difference; all words are wanted, and any of them where that finds
 * nothing; a word may have a wrong letter in five, and the last may be only begun. The answer depends on the entries and the question,
 * not on the order in which entries came.
 */
export class SearchIndex {
  private readonly entries = new Map<string, SearchEntry>()
  private readonly words = new MiniSearch<SearchEntry>({
    fields: Object.keys(boost),
    extractField: (entry, field) => {
      const value = entry[field as keyof SearchEntry]
      return Array.isArray(value) ? value.join(' ') : ((value as string | undefined) ?? '')
    },
    tokenize: wordsOf,
    processTerm: indexedForms,
  })

  add(entry: SearchEntry): void {
    this.remove(entry.id)
    this.entries.set(entry.id, entry)
    this.words.add(entry)
  }

  addAll(entries: Iterable<SearchEntry>): void {
    for (const entry of entries) this.add(entry)
  }

  remove(id: string): void {
    if (this.entries.delete(id)) this.words.discard(id)
  }

  /** Take the entries of these ids out, those that are there, and put the given ones in. */
  replaceAll(ids: Iterable<string>, entries: Iterable<SearchEntry>): void {
    for (const id of ids) this.remove(id)
    this.addAll(entries)
  }

  get size(): number {
    return this.entries.size
  }

  /** @param options.limit  How many hits to give at most, all nouns together; only those of `options.noun` when it is given. */
  search(question: string, options: { limit: number; noun?: SearchNoun }): SearchAnswer {
    const asked = wordsOf(question)
    if (asked.length === 0) return nothingFound
    const all = this.ask(asked, 'AND', options.noun)
    const results = all.length > 0 ? all : this.ask(asked, 'OR', options.noun)
    const hits = results
      .map((result) => this.hitOf(result, question))
      .sort(byNearnessThenScore)
      .map(({ hit }) => hit)
    const shown = hits.slice(0, options.limit)
    const nouns = [...new Set(shown.map((hit) => hit.noun))]
    return {
      hits: shown,
      groups: nouns.map((noun) => ({ noun, hits: shown.filter((hit) => hit.noun === noun) })),
      found: hits.length,
      hasAllWords: all.length > 0,
    }
  }

  private ask(asked: string[], combineWith: 'AND' | 'OR', noun: SearchNoun | undefined): SearchResult[] {
    const last = asked.length - 1
    return this.words.search(
      {
        combineWith,
        queries: asked.map((word, index) => ({
          combineWith: 'OR' as const,
          queries: isFuzzy(word) ? [word, swapsOf(word)] : [searchedForm(word)],
          fuzzy: isFuzzy(word) && fuzziness,
          prefix: index === last,
          boostDocument: (_id: unknown, term: string) =>
            !isFuzzy(word) || term.charAt(0) === word.charAt(0) ? 1 : otherFirstLetterWeight,
        })),
      },
      {
        boost,
        tokenize: (text) => [text],
        processTerm: (term) => term,
        ...(noun && { filter: (result: SearchResult) => this.entries.get(String(result.id))?.noun === noun }),
      },
    )
  }

  private hitOf(result: SearchResult, question: string): RankedHit {
    const entry = this.entries.get(String(result.id)) as SearchEntry
    const nearness = nearnessOf(entry.code, question)
    const hit: SearchHit = {
      id: entry.id,
      noun: entry.noun,
      title: entry.title,
      match: matchOf[nearness],
      // Rounded, so that sums taken in another order tie as they should.
      score: Number(result.score.toPrecision(9)),
      terms: [...new Set(result.terms)].sort(),
    }
    return { hit, nearness, titleKey: textKey(entry.title) }
  }
}

/** How near a code is to what was asked for: itself; itself but for zeros, case, spaces and dashes; its number; not at all. */
type Nearness = 0 | 1 | 2 | 3
const matchOf = ['exact', 'close', 'close', 'words'] as const
type RankedHit = { hit: SearchHit; nearness: Nearness; titleKey: string }

/** Words of letters and figures, folded; a label such as T2.1-14 is three. */
function wordsOf(text: string): string[] {
  return textKey(text)
    .replace(/['’]/gu, '')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
}

const hasFigure = (word: string): boolean => /\p{N}/u.test(word)
const withoutEndLetters = (key: string): string => key.replace(/(?<=\d)[a-z]+$/, '')

/** A word with figures can be found without its zeros in front and without letters behind: 0017 and 17A both by 17. */
const indexedForms = (word: string): string | string[] =>
  hasFigure(word) ? [...new Set([codeKey(word), withoutEndLetters(codeKey(word))])] : word

const searchedForm = (word: string): string => (hasFigure(word) ? withoutEndLetters(codeKey(word)) : word)

const isFuzzy = (word: string): boolean => word.length >= fewestFuzzyLetters && !hasFigure(word)

/** The word with each two neighbouring letters swapped, to be looked up as they are. */
function swapsOf(word: string): QueryCombination {
  const swaps: string[] = []
  for (let at = 0; at + 1 < word.length; at++) {
    const [letter, next] = [word.charAt(at), word.charAt(at + 1)]
    if (letter !== next) swaps.push(word.slice(0, at) + next + letter + word.slice(at + 2))
  }
  return { combineWith: 'OR', queries: swaps, fuzzy: false, prefix: false, boostTerm: () => swapWeight }
}

/** Held against the whole of the question and against each of its words. */
function nearnessOf(code: string | undefined, question: string): Nearness {
  if (code === undefined) return 3
  const asked = [question, ...question.split(/\s+/)].map((part) => part.trim()).filter((part) => part !== '')
  const key = textKey(code)
  if (asked.some((part) => textKey(part) === key)) return 0
  const numbers = asked.filter(hasFigure)
  if (numbers.some((part) => codeKey(part) === codeKey(code))) return 1
  return numbers.some((part) => isCloseCode(textKey(part), key)) ? 2 : 3
}

const byNearnessThenScore = (left: RankedHit, right: RankedHit): number =>
  left.nearness - right.nearness ||
  right.hit.score - left.hit.score ||
  (left.titleKey < right.titleKey ? -1 : left.titleKey > right.titleKey ? 1 : 0) ||
  (left.hit.id < right.hit.id ? -1 : 1)
