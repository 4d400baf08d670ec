import type { Column } from './columns'
import type { Draft, LoneNumber } from './drafts'
import type { Lesson } from './lesson'

/** What lone numbers of a list count, and how sure that is. */
type Meaning = { role: 'strands' | 'stitches' | 'put-ups' | 'length'; confidence: number }

/** What the list says of its numbers beside the numbers themselves. */
export type NumberHints = {
  /** What the text says numbers are: those in brackets, or all. */
  said: { which: 'brackets' | 'all'; mean: 'strands' | 'put-ups' } | null
  /** The columns in their order, where a head gave them for lines that are not in cells. */
  order: readonly Column[] | null
  /** Strands are given for all lines by a heading. */
  hasStrandsFromHeading: boolean
  /** What a person said numbers are that were taken for something else. */
  taught: readonly Lesson[]
}

/** Numbers of one column have one key: by their cell, or by their place among the lone numbers of the line. */
export const numberKey = ({ isBracketed, cell }: LoneNumber, ordinal: number, cells: number): string =>
  cells > 1 ? `cell ${cell}` : `${isBracketed ? 'bracket' : 'number'} ${ordinal}`

/**
 * Say what the numbers without a word count, for all lines of a list together: one number alone may be anything, a column of them seldom.
 * Fills the drafts in place and takes the numbers it could place out of `lone`.
 */
export function settleNumbers(drafts: readonly Draft[], cellsOf: (source: number) => number, hints: NumberHints): void {
  const columns = new Map<string, { draft: Draft; lone: LoneNumber }[]>()
  for (const draft of drafts) {
    if (hints.order && draft.lone.length > 0) settleByOrder(draft, hints.order)
    draft.lone.forEach((lone, ordinal) => {
      const isBlend = draft.threads.length > 1 && lone.isBracketed
      const key = isBlend ? 'bracket 0' : numberKey(lone, ordinal, cellsOf(draft.source))
      const column = columns.get(key)
      if (column) column.push({ draft, lone })
      else columns.set(key, [{ draft, lone }])
    })
  }
  const listed = {
    strands: share(drafts, hasStrands),
    putUps: share(drafts, has('put-ups')),
    counts: share(drafts, has('stitches')),
  }
  for (const [, found] of [...columns].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const guessed = meaningOf(found, listed, hints)
    const lesson = hints.taught.findLast(
      (one) =>
        one.kind === 'numbers' &&
        one.was === guessed?.role &&
        found.some(({ draft }) => draft.source >= one.fromLine && draft.source <= one.toLine),
    )
    const meaning: Meaning | null = lesson?.kind === 'numbers' ? { role: lesson.means, confidence: 0.95 } : guessed
    if (!meaning) continue
    for (const { draft, lone } of found) give(draft, lone, meaning)
  }
}

const share = (drafts: readonly Draft[], test: (draft: Draft) => boolean): number =>
  drafts.length === 0 ? 0 : drafts.filter(test).length / drafts.length
const hasStrands = ({ threads }: Draft): boolean => threads.some(({ strands }) => strands !== null)
const has =
  (kind: string) =>
  ({ amounts }: Draft): boolean =>
    amounts.some((amount) => amount.kind === kind)

function meaningOf(
  found: readonly { draft: Draft; lone: LoneNumber }[],
  listed: { strands: number; putUps: number; counts: number },
  hints: NumberHints,
): Meaning | null {
  const values = found.map(({ lone }) => lone.value)
  const most = Math.max(...values)
  const isWhole = found.every(({ lone }) => lone.isWhole)
  const isBracketed = found.every(({ lone }) => lone.isBracketed)
  const own = {
    strands: share(
      found.map(({ draft }) => draft),
      hasStrands,
    ),
    putUps: share(
      found.map(({ draft }) => draft),
      has('put-ups'),
    ),
    counts: share(
      found.map(({ draft }) => draft),
      has('stitches'),
    ),
  }
  const { said } = hints
  if (said && (isBracketed || said.which === 'all') && most <= 12 && (said.mean === 'put-ups' ? own.putUps : own.strands) < 0.5)
    return { role: said.mean, confidence: said.which === 'brackets' ? 0.93 : 0.86 }
  if (!isWhole) return own.putUps < 0.5 && most <= 30 ? { role: 'put-ups', confidence: 0.68 } : null
  if (most > 12) return own.counts < 0.5 && most < 2_000_000 ? { role: 'stitches', confidence: most > 40 ? 0.78 : 0.6 } : null
  const isSmall = most <= 4 && values.every((value) => value >= 1)
  // The other lines of the list say their strands, these do not.
  if (isSmall && own.strands < 0.2 && listed.strands > 0.3) return { role: 'strands', confidence: isBracketed ? 0.9 : 0.75 }
  const isInBlend = found.some(({ draft }) => draft.threads.length > 1)
  if (isSmall && own.strands < 0.5 && isBracketed && isInBlend) return { role: 'strands', confidence: 0.85 }
  if (isSmall && own.strands < 0.5 && !hints.hasStrandsFromHeading)
    return { role: 'strands', confidence: most <= 3 ? 0.66 : 0.55 }
  if (own.putUps < 0.5) return { role: 'put-ups', confidence: own.strands >= 0.5 || hints.hasStrandsFromHeading ? 0.72 : 0.55 }
  return own.counts < 0.5 ? { role: 'stitches', confidence: 0.5 } : null
}

/** The head named the columns in their order: its last figures are the line's last. */
function settleByOrder(draft: Draft, order: readonly Column[]): void {
  const numeric = order.filter(({ role }) => role === 'strands' || role === 'stitches' || role === 'put-ups' || role === 'length')
  if (numeric.length !== draft.lone.length) return
  draft.lone.slice().forEach((lone, at) => {
    const { role, stitch } = numeric[at] as Column
    give(draft, lone, { role: role as Meaning['role'], confidence: 0.9 }, stitch ?? null)
  })
}

function give(
  draft: Draft,
  lone: LoneNumber,
  { role, confidence }: Meaning,
  stitch: Draft['amounts'][number] extends infer A ? (A extends { stitch: infer S } ? S : null) : null = null,
): void {
  const sure = Math.min(confidence, lone.certainty)
  const done = () => {
    draft.lone = draft.lone.filter((other) => other !== lone)
  }
  if (role === 'strands') {
    const thread = draft.threads[lone.thread] ?? draft.threads[0]
    const isForAll = draft.threads.length > 1 && draft.lone.filter(({ isBracketed }) => isBracketed).length === 1
    if (!thread || thread.strands || !Number.isInteger(lone.value) || lone.value < 1 || lone.value > 12) return
    const strands = { value: lone.value, confidence: isForAll ? Math.min(sure, 0.5) : sure, line: draft.source }
    if (isForAll) for (const each of draft.threads) each.strands ??= strands
    else thread.strands = strands
    done()
  } else if (role === 'stitches') {
    if (!lone.isWhole || lone.value <= 0) return
    draft.amounts.push({ kind: 'stitches', stitch, count: lone.value, first: 0, last: 0, confidence: sure })
    done()
  } else if (role === 'put-ups') {
    if (lone.value <= 0 || lone.value > 200) return
    draft.amounts.push({
      kind: 'put-ups',
      hundredths: Math.round(lone.value * 100),
      word: null,
      first: 0,
      last: 0,
      confidence: sure,
    })
    done()
  } else {
    draft.amounts.push({ kind: 'length', tenths: Math.round(lone.value * 10_000), first: 0, last: 0, confidence: sure * 0.9 })
    done()
  }
}

/** "x2" where the text says that x is for strands. */
export function timesAreStrands(draft: Draft): void {
  const [thread] = draft.threads
  const at = draft.amounts.findIndex(
    (amount) => amount.kind === 'put-ups' && amount.word === null && amount.hundredths % 100 === 0,
  )
  const amount = draft.amounts[at]
  if (amount?.kind !== 'put-ups' || !thread || draft.threads.some(({ strands }) => strands) || amount.hundredths > 1_200) return
  draft.amounts.splice(at, 1)
  const confidence = draft.threads.length > 1 ? 0.6 : 0.93
  for (const each of draft.threads) each.strands = { value: amount.hundredths / 100, confidence, line: draft.source }
}
