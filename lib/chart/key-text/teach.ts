import type { Stitch } from '#lib/thread/stitches'
import { lineText, type SourceLine } from '../page-text/page-text'
import type { Lesson } from './lesson'
import { lackingOf, matchThread } from './match'
import { readKey } from './read-key'
import type { KeyReading, NamedThread, ReadAmount, ReadField, ReadKeyLine } from './reading'
import { nameKey, type Vocabulary } from './vocabulary'

/** Where a key line stands in a reading: the index of its design, of the list in it, of the line in that. */
export type LinePlace = { design: number; list: number; line: number }

export type FieldEdit =
  | { field: 'symbol'; value: string | null }
  | { field: 'maker' | 'threadLine' | 'code' | 'name'; thread: number; value: string | null }
  | { field: 'strands'; thread: number; value: number | null }
  /** Null: none of the collection, a new one. */
  | { field: 'match'; thread: number; threadId: string | null }
  | { field: 'stitches'; value: Stitch[] | null }
  /** All amounts of the line, as they should be. */
  | { field: 'amounts'; value: ReadAmount[] }
  /** Another thread of a blend, still empty; or one taken away. */
  | { field: 'add thread' }
  | { field: 'remove thread'; thread: number }

export type FactEdit =
  | { fact: 'title' | 'designer' | 'cloth'; value: string | null }
  | { fact: 'widthStitches' | 'heightStitches' | 'measuredWidthUm' | 'measuredHeightUm'; value: number | null }
  | { fact: 'count'; value: { threads: number; perUm: number } | null }
  | { fact: 'over'; value: 1 | 2 | null }
  | { fact: 'weave'; value: 'block' | 'single' | null }

export type Correction =
  /** One field of one line, by hand. `teachesRest`: other lines that were read the same way follow. */
  | { kind: 'field'; place: LinePlace; edit: FieldEdit; teachesRest: boolean }
  | { kind: 'fact'; design: number; edit: FactEdit }
  | { kind: 'lesson'; lesson: Lesson }
  /** A source line that was not read becomes a key line, empty but for its text; stands after the list's other lines read before it. */
  | { kind: 'make line'; design: number; list: number; sourceLine: number }
  /** A source line that was not read needs no more looking at. */
  | { kind: 'dismiss'; sourceLine: number }
  /** A key line is none. */
  | { kind: 'remove line'; place: LinePlace }

/** Something set by hand, by the source line its key line was read from and which of that source's lines it is. */
type HandEdit =
  | { kind: 'field'; source: number; ordinal: number; edit: FieldEdit }
  | { kind: 'remove'; source: number; ordinal: number }
  | { kind: 'make'; source: number; design: number; list: number }
  | { kind: 'fact'; design: number; edit: FactEdit }

/**
 * A key under review; plain data that can be kept. The reading is what the lines give with the lessons, and the edits by hand upon it in
 * their order, so that nothing that is taught undoes what a person set.
 */
export type KeyReview = { lines: SourceLine[]; lessons: Lesson[]; edits: HandEdit[]; dismissed: number[]; reading: KeyReading }

export function startReview(lines: SourceLine[], known: Vocabulary): KeyReview {
  return { lines, lessons: [], edits: [], dismissed: [], reading: readKey(lines, known) }
}

/**
 * Correct a reading, and teach the rest of it.
 *
 * @returns the review as it is then, and the places (in it) of other lines that changed
 * @throws {RangeError} if the correction speaks of a line or design that is not there
 */
export function teach(review: KeyReview, correction: Correction, known: Vocabulary): { review: KeyReview; changed: LinePlace[] } {
  const lessons = [...review.lessons]
  const edits = [...(review.edits ?? [])]
  const dismissed = [...review.dismissed]
  let own: string | null = null
  switch (correction.kind) {
    case 'field': {
      const anchor = anchorAt(review.reading, correction.place)
      own = keyOf(anchor)
      edits.push({ kind: 'field', ...anchor, edit: correction.edit })
      if (correction.teachesRest) lessons.push(...lessonsOf(review, correction.place, correction.edit, known))
      break
    }
    case 'remove line': {
      const anchor = anchorAt(review.reading, correction.place)
      own = keyOf(anchor)
      edits.push({ kind: 'remove', ...anchor })
      break
    }
    case 'make line':
      edits.push({ kind: 'make', source: correction.sourceLine, design: correction.design, list: correction.list })
      break
    case 'fact':
      edits.push({ kind: 'fact', design: correction.design, edit: correction.edit })
      break
    case 'dismiss':
      dismissed.push(correction.sourceLine)
      break
    case 'lesson':
      lessons.push(correction.lesson)
  }
  const reading = replay(readKey(review.lines, known, lessons), edits, dismissed, review.lines, known)
  const next = { lines: review.lines, lessons, edits, dismissed, reading }
  return { review: next, changed: changedLines(review.reading, reading, own) }
}

type Anchor = { source: number; ordinal: number }
const keyOf = ({ source, ordinal }: Anchor): string => `${source}/${ordinal}`

/** Every line with its place and its anchor, in order. */
function* anchored({ designs }: KeyReading): Generator<{ place: LinePlace; anchor: Anchor; line: ReadKeyLine }> {
  const seen = new Map<number, number>()
  for (const [design, { lists }] of designs.entries())
    for (const [list, { lines }] of lists.entries())
      for (const [index, line] of lines.entries()) {
        const source = line.from[0] ?? -1
        const ordinal = seen.get(source) ?? 0
        seen.set(source, ordinal + 1)
        yield { place: { design, list, line: index }, anchor: { source, ordinal }, line }
      }
}

function anchorAt(reading: KeyReading, place: LinePlace): Anchor {
  for (const { place: other, anchor } of anchored(reading))
    if (other.design === place.design && other.list === place.list && other.line === place.line) return anchor
  throw new RangeError(`teach: no line ${place.design}/${place.list}/${place.line}`)
}

/** Lines that differ from what they were, apart from the one that was corrected. */
function changedLines(before: KeyReading, after: KeyReading, own: string | null): LinePlace[] {
  const old = new Map([...anchored(before)].map(({ anchor, line }) => [keyOf(anchor), JSON.stringify(line)]))
  return [...anchored(after)]
    .filter(({ anchor, line }) => keyOf(anchor) !== own && old.get(keyOf(anchor)) !== JSON.stringify(line))
    .map(({ place }) => place)
}

/** What a correction of one field says of lines that were read the same way. */
function lessonsOf(review: KeyReview, place: LinePlace, edit: FieldEdit, known: Vocabulary): Lesson[] {
  const list = review.reading.designs[place.design]?.lists[place.list]
  const line = list?.lines[place.line] as ReadKeyLine
  const sources = list?.lines.flatMap(({ from }) => from) ?? []
  const span = { fromLine: Math.min(...sources), toLine: Math.max(...sources) }
  if (edit.field === 'amounts') return numbersLesson(line, edit.value, span)
  if (edit.field === 'add thread' || edit.field === 'remove thread' || edit.field === 'symbol' || edit.field === 'stitches')
    return []
  const thread = line.threads[edit.thread]
  if (!thread) return []
  const { maker, threadLine, code, name, strands } = thread.named
  const was = { maker: maker?.value ?? null, threadLine: threadLine?.value ?? null }
  switch (edit.field) {
    case 'maker':
      return edit.value === null ? [] : [{ kind: 'maker', was, maker: edit.value, threadLine: null }]
    case 'threadLine':
      return edit.value === null || was.maker === null ? [] : [{ kind: 'maker', was, maker: was.maker, threadLine: edit.value }]
    case 'strands': {
      if (edit.value === null) return []
      const putUps = line.amounts.find(
        (amount) => amount.kind === 'put-ups' && amount.hundredths.value === (edit.value ?? 0) * 100 && amount.putUpWord === null,
      )
      if (strands === null && putUps) return [{ kind: 'numbers', ...span, was: 'put-ups', means: 'strands' }]
      const isSaidElsewhere = strands !== null && strands.line !== line.from[0]
      return strands === null || isSaidElsewhere
        ? [{ kind: 'strands', stitch: line.stitches?.value[0] ?? null, strands: edit.value }]
        : []
    }
    case 'match': {
      const chosen = edit.threadId === null ? undefined : known.threads.get(edit.threadId)
      if (!chosen) return []
      const lessons: Lesson[] = [
        { kind: 'thread', maker: was.maker, code: code?.value ?? null, name: name?.value ?? null, threadId: chosen.id },
      ]
      const isOpen = was.maker === null || (nameKey(was.maker) === nameKey(chosen.maker) && was.threadLine === null)
      // A code that several have, or nobody said whose: the others are of the same maker and line.
      if (isOpen && code !== null && code.value === chosen.code)
        lessons.push({ kind: 'maker', was, maker: chosen.maker, threadLine: chosen.threadLine })
      return lessons
    }
    default:
      return []
  }
}

/** Strands that are skeins, or the other way round, show by the same figure in the other place. */
function numbersLesson(line: ReadKeyLine, amounts: readonly ReadAmount[], span: { fromLine: number; toLine: number }): Lesson[] {
  const strands = line.threads[0]?.named.strands?.value
  const held = (kind: 'put-ups' | 'stitches') =>
    line.amounts.flatMap((amount) => (amount.kind === kind ? [figureOf(amount)] : []))
  for (const amount of amounts) {
    if (amount.kind === 'length') continue
    const value = figureOf(amount)
    if (held(amount.kind).includes(value)) continue
    const other = amount.kind === 'put-ups' ? 'stitches' : 'put-ups'
    if (value === strands) return [{ kind: 'numbers', ...span, was: 'strands', means: amount.kind }]
    if (held(other).includes(value)) return [{ kind: 'numbers', ...span, was: other, means: amount.kind }]
  }
  return []
}

const figureOf = (amount: ReadAmount): number =>
  amount.kind === 'put-ups'
    ? amount.hundredths.value / 100
    : amount.kind === 'stitches'
      ? amount.count.value
      : amount.tenths.value

const byHand = <T>(value: T): ReadField<T> => ({ value, confidence: 1, line: null, byHand: true })
const nobody: NamedThread = { maker: null, threadLine: null, code: null, name: null, strands: null }
const nothingYet = (): ReadKeyLine['threads'][number] => ({
  named: { ...nobody },
  match: { kind: 'new', lacks: ['maker', 'thread line', 'code'] },
})

/** What was set by hand, set again upon a reading. */
function replay(
  reading: KeyReading,
  edits: readonly HandEdit[],
  dismissed: readonly number[],
  lines: readonly SourceLine[],
  known: Vocabulary,
): KeyReading {
  const next = structuredClone(reading)
  const byAnchor = new Map([...anchored(next)].map(({ anchor, line }) => [keyOf(anchor), line]))
  const removed = new Set<ReadKeyLine>()
  const gone = new Set(dismissed)
  for (const edit of edits) {
    if (edit.kind === 'fact') {
      const facts = next.designs[edit.design]?.facts as Record<string, ReadField<unknown> | null> | undefined
      if (facts) facts[edit.edit.fact] = edit.edit.value === null ? null : byHand<unknown>(edit.edit.value)
    } else if (edit.kind === 'make') {
      const made = makeLine(next, edit, lines)
      if (made) byAnchor.set(keyOf({ source: edit.source, ordinal: 0 }), made)
      gone.add(edit.source)
    } else {
      const line = byAnchor.get(keyOf(edit))
      if (!line) continue
      if (edit.kind === 'remove') removed.add(line)
      else applyEdit(line, edit.edit, known)
    }
  }
  // A line that is none goes back to what was not read, unless it is dismissed there too.
  for (const line of removed) next.unread.push(...line.from)
  for (const { lists } of next.designs) for (const list of lists) list.lines = list.lines.filter((line) => !removed.has(line))
  next.unread = [...new Set(next.unread)].filter((line) => !gone.has(line)).sort((a, b) => a - b)
  return next
}

function makeLine(
  reading: KeyReading,
  { source, design, list }: { source: number; design: number; list: number },
  lines: readonly SourceLine[],
): ReadKeyLine | null {
  const held = reading.designs[design]?.lists[list]?.lines
  const text = lines[source]
  if (!held || !text) return null
  const made: ReadKeyLine = {
    from: [source],
    symbol: null,
    threads: [nothingYet()],
    stitches: null,
    amounts: [],
    rest: lineText(text).replaceAll('\t', ' ').slice(0, 500),
  }
  const after = held.findLastIndex(({ from }) => (from[0] ?? 0) <= source)
  held.splice(after + 1, 0, made)
  return made
}

function applyEdit(line: ReadKeyLine, edit: FieldEdit, known: Vocabulary): void {
  switch (edit.field) {
    case 'symbol':
      line.symbol = edit.value === null ? null : byHand(edit.value)
      return
    case 'stitches':
      line.stitches = edit.value === null ? null : byHand(edit.value)
      return
    case 'amounts':
      line.amounts = edit.value
      return
    case 'add thread':
      line.threads.push(nothingYet())
      return
    case 'remove thread':
      line.threads.splice(edit.thread, 1)
      return
  }
  const thread = line.threads[edit.thread]
  if (!thread) return
  const { named } = thread
  if (edit.field === 'strands') named.strands = edit.value === null ? null : byHand(edit.value)
  else if (edit.field === 'match')
    thread.match =
      edit.threadId !== null && known.threads.has(edit.threadId)
        ? { kind: 'known', threadId: edit.threadId, confidence: 1, by: 'taught' }
        : lackingOf(named)
  else {
    named[edit.field] = edit.value === null ? null : byHand(edit.value)
    // What it is called now may be another thread; one that was chosen by hand stays.
    const isChosen = thread.match.kind === 'known' && thread.match.by === 'taught' && thread.match.confidence === 1
    if (!isChosen) thread.match = matchThread(named, { maker: null, threadLine: null }, known)
  }
}
