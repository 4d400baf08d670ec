import { say, sayings } from '#language/say'
import { textKey } from '#lib/quantity/text-key'

/** Something to go to, as one line: what it is, what kind of thing, and the labels of where it is. */
export type Entry = {
  href: string
  title: string
  /** "Chart", "Thread", "To do" … */
  kind: string
  places?: readonly string[]
  /** Said after the title. */
  note?: string
  /** Other words it is asked for by. */
  also?: string
}

/** What each kind is called where it is shown; what was kept of lately speaks of kinds as the code does. */
export const kindWords: Readonly<Record<string, string>> = sayings({
  Chart: 'Chart',
  Thread: 'Thread',
  Cloth: 'Cloth',
  Notion: 'Notion',
  Place: 'Place',
  Project: 'Project',
  Screen: 'Screen',
})

/** Entries under one head. */
export type EntryGroup = { title: string; entries: readonly Entry[] }

const wordsOf = (text: string): string[] =>
  textKey(text)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')

/** Those of which every typed word begins some word; the order is kept. */
export function entriesMatching(entries: readonly Entry[], typed: string): Entry[] {
  const asked = wordsOf(typed)
  if (asked.length === 0) return []
  return entries.filter((entry) => {
    const words = wordsOf(`${entry.title} ${entry.note ?? ''} ${entry.also ?? ''}`)
    return asked.every((word) => words.some((other) => other.startsWith(word)))
  })
}

/** Fewer letters begin too many words to mean the one. */
const fewestMeantLetters = 3

/**
 * Whether what is typed begins as the entry does: "fin" for "Finish Nine Wrens", "28" for "28 count". Then it is a thing to do that is
 * meant, and stands before what was found in the record.
 */
export function isMeant(entry: Entry, typed: string): boolean {
  const [first = ''] = wordsOf(typed)
  const [begins = ''] = wordsOf(entry.title)
  return first !== '' && (first === begins || (first.length >= fewestMeantLetters && begins.startsWith(first)))
}

const mostOfEach = 5

/** What is offered for typed words: things to do that are meant, then what was found, then other things to do. Nothing stands twice. */
export function offeredFor(typed: string, found: readonly Entry[], doings: readonly Entry[]): EntryGroup[] {
  const matching = entriesMatching(doings, typed)
  const meant = matching.filter((entry) => isMeant(entry, typed))
  const others = matching.filter((entry) => !meant.includes(entry))
  return [
    { title: say('To do'), entries: meant.slice(0, mostOfEach) },
    { title: say('Found'), entries: found },
    { title: meant.length > 0 ? say('Also to do') : say('To do'), entries: others.slice(0, mostOfEach) },
  ].filter(({ entries }) => entries.length > 0)
}

/** How many things gone to lately are kept. */
const mostRecent = 8

/** With one more gone to: it comes first, and stands once. */
export const withRecent = (recent: readonly Entry[], gone: Entry): Entry[] =>
  [gone, ...recent.filter(({ href }) => href !== gone.href)].slice(0, mostRecent)

/** What was kept, as far as it can be read. */
export function parseRecent(text: string | null): Entry[] {
  if (text === null) return []
  try {
    const kept: unknown = JSON.parse(text)
    return Array.isArray(kept) ? kept.filter(isEntry).slice(0, mostRecent) : []
  } catch {
    return []
  }
}

/** An address of another site, or one that runs something, is none that was kept here. */
const isEntry = (kept: unknown): kept is Entry => {
  if (typeof kept !== 'object' || kept === null) return false
  const { href, title, kind } = kept as Record<string, unknown>
  return typeof href === 'string' && /^\/(?!\/)/.test(href) && typeof title === 'string' && typeof kind === 'string'
}

const thingKinds: Record<string, string> = sayings({
  designs: 'Chart',
  charts: 'Chart',
  threads: 'Thread',
  cloth: 'Cloth',
  notions: 'Notion',
  places: 'Place',
  projects: 'Project',
})

/** The thing a page is of, by its address and the title of its window; null for other pages. */
export function thingOfPage(pathname: string, windowTitle: string): Entry | null {
  const [, noun = '', id = '', ...rest] = pathname.split('/')
  const kind = thingKinds[noun]
  // Ids are long; beside them stand pages such as /charts/new.
  if (kind === undefined || rest.length > 0 || id.length < 16) return null
  const title = windowTitle.split(' · ')[0]?.trim() ?? ''
  return title === '' ? null : { href: pathname, title, kind }
}
