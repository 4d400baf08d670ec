import 'server-only'
import type { KeyReading } from '#lib/chart/key-text/reading'
import { type Correction, type KeyReview, type LinePlace, teach } from '#lib/chart/key-text/teach'
import { ok, type Result, refused } from '#lib/result'
import { readVocabulary } from './read-vocabulary'
import { changeReading, findStagedReading, type ReviewBefore, type StagedReading } from './reading-store'

export type CorrectRefusal =
  | { kind: 'no-such-reading' }
  /** Somebody else corrected or saved it since. */
  | { kind: 'changed-meanwhile' }
  /** It is still being read, was refused, or is saved. */
  | { kind: 'not-under-review' }
  | { kind: 'no-such-line' }
  | { kind: 'nothing-to-undo' }

export type Corrected = {
  staged: StagedReading
  /** Lines that followed beside those corrected. */
  changed: LinePlace[]
}

type Which = { id: string; version: number; ownerIds: readonly string[] }

/** Of a long review fewer steps back are kept. */
const mostBeforeCharacters = 3_000_000

/** Correct a reading, and teach the rest of it: several corrections are one step, taken back together. */
export function correctReading(
  input: Which & { corrections: readonly Correction[] },
): Promise<Result<Corrected, CorrectRefusal>> {
  return changeReview(input, async (staged, review) => {
    const vocabulary = await readVocabulary()
    let next = review
    let changed: LinePlace[] = []
    for (const correction of input.corrections) {
      if (!isThere(next, correction)) return refused({ kind: 'no-such-line' })
      const taught = teach(next, correction, vocabulary)
      next = taught.review
      // A line taken out moves those after it.
      changed = correction.kind === 'remove line' ? taught.changed : [...changed, ...taught.changed]
    }
    const before: ReviewBefore = {
      lessons: review.lessons,
      edits: review.edits,
      dismissed: review.dismissed,
      reading: review.reading,
    }
    return ok({ next: { ...staged, review: next, before: withinReason([...staged.before, JSON.stringify(before)]) }, changed })
  })
}

/** Take the last step back. */
export function undoCorrection(input: Which): Promise<Result<Corrected, CorrectRefusal>> {
  return changeReview(input, async (staged, review) => {
    const last = staged.before.at(-1)
    if (last === undefined) return refused({ kind: 'nothing-to-undo' })
    const before = JSON.parse(last) as ReviewBefore
    return ok({
      next: { ...staged, review: { ...before, lines: review.lines }, before: staged.before.slice(0, -1) },
      changed: [],
    })
  })
}

type Change = Result<{ next: StagedReading; changed: LinePlace[] }, CorrectRefusal>

async function changeReview(
  { id, version, ownerIds }: Which,
  change: (staged: StagedReading, review: KeyReview) => Promise<Change>,
): Promise<Result<Corrected, CorrectRefusal>> {
  if (!(await findStagedReading(id, ownerIds))) return refused({ kind: 'no-such-reading' })
  const done = await changeReading<Result<LinePlace[], CorrectRefusal>>(id, async (staged) => {
    if (staged.version !== version) return { next: null, value: refused({ kind: 'changed-meanwhile' }) }
    if (staged.state.kind !== 'read' || !staged.review) return { next: null, value: refused({ kind: 'not-under-review' }) }
    const changed = await change(staged, staged.review)
    return changed.ok ? { next: changed.value.next, value: ok(changed.value.changed) } : { next: null, value: changed }
  })
  if (!done) return refused({ kind: 'no-such-reading' })
  return done.value.ok ? ok({ staged: done.staged, changed: done.value.value }) : done.value
}

/** The last steps, as many as are worth keeping; the very last always. */
function withinReason(before: string[]): string[] {
  let characters = 0
  let from = before.length
  while (from > 0) {
    characters += before[from - 1]?.length ?? 0
    if (characters > mostBeforeCharacters && from < before.length) break
    from--
  }
  return before.slice(from)
}

/** Whether what a correction speaks of is in the review. */
function isThere({ reading, lines }: KeyReview, correction: Correction): boolean {
  switch (correction.kind) {
    case 'field': {
      const line = lineAt(reading, correction.place)
      return line !== undefined && (!('thread' in correction.edit) || correction.edit.thread < line.threads.length)
    }
    case 'remove line':
      return lineAt(reading, correction.place) !== undefined
    case 'fact':
      return reading.designs[correction.design] !== undefined
    case 'make line':
      return reading.designs[correction.design]?.lists[correction.list] !== undefined && correction.sourceLine < lines.length
    case 'dismiss':
      return correction.sourceLine < lines.length
    case 'lesson':
      return !('toLine' in correction.lesson) || correction.lesson.toLine < lines.length
  }
}

const lineAt = ({ designs }: KeyReading, { design, list, line }: LinePlace) => designs[design]?.lists[list]?.lines[line]
