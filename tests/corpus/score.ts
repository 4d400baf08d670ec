import {
  type KeyReading,
  type NamedThread,
  type ReadAmount,
  type ReadDesign,
  type ReadField,
  type ReadKeyLine,
  type ReadList,
  sureEnough,
} from '#lib/chart/key-text/reading'
import { sameCount } from '#lib/quantity/count'
import type { Stitch } from '#lib/thread/stitches'
import type { TruthAmount, TruthDesign, TruthFacts, TruthLine, TruthList, TruthThread } from './truth'

/** What is held against the truth, one by one. `line`: a key line is there at all; it has no share in the sum, since its fields have. */
export const scoredFields = [
  'line',
  'symbol',
  'drawn symbol',
  'maker',
  'thread line',
  'code',
  'name',
  'strands',
  'thread',
  'stitches',
  'stitch count',
  'put-ups',
  'length',
  'title',
  'designer',
  'widthStitches',
  'heightStitches',
  'measuredWidthUm',
  'measuredHeightUm',
  'count',
  'over',
  'weave',
  'cloth',
] as const
export type ScoredField = (typeof scoredFields)[number]

/** Read as it stands; read as something else; not read; read where nothing stands. `confidentlyWrong`: of the wrong and the extra, those read as sure. */
export type Tally = { right: number; wrong: number; missing: number; extra: number; confidentlyWrong: number }

export type Fault = {
  field: ScoredField
  kind: 'wrong' | 'missing' | 'extra'
  wanted: string | null
  read: string | null
  confidence: number | null
  at: string
}

export type Score = { byField: Map<ScoredField, Tally>; faults: Fault[] }

export const emptyTally = (): Tally => ({ right: 0, wrong: 0, missing: 0, extra: 0, confidentlyWrong: 0 })

/** Case, white space, and the kinds of apostrophes and dashes make no difference to a name; an accent does. */
const folded = (text: string): string =>
  text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[’‘`]/gu, "'")
    .replace(/[“”"]/gu, '')
    .replace(/[–—]/gu, '-')
    .replace(/\s+/gu, ' ')
    .trim()
const isSame = (a: string, b: string): boolean => folded(a) === folded(b)

/** Levenshtein's distance, over the longer length: 0 for the same, 1 for nothing in common. */
function apart(a: string, b: string): number {
  const longest = Math.max(a.length, b.length)
  if (a === b) return 0
  // Lengths so far apart that less than half can be alike.
  if (Math.min(a.length, b.length) * 2 < longest) return 1
  let row = Array.from({ length: b.length + 1 }, (_, at) => at)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      next.push(
        Math.min((row[j] as number) + 1, (next[j - 1] as number) + 1, (row[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1)),
      )
    }
    row = next
  }
  return (row[b.length] as number) / longest
}
const likeness = (a: string | null | undefined, b: string | null | undefined): number => {
  if (!a || !b) return 0
  const like = 1 - apart(folded(a), folded(b))
  return like < 0.5 ? 0 : like
}

/**
 * Pair each of `wanted` with at most one of `read`, the most alike first and among those the ones nearest in order; what is alike in nothing
 * stays alone.
 */
export function pairUp<W, R>(
  wanted: readonly W[],
  read: readonly R[],
  alike: (wanted: W, read: R) => number,
): { pairs: [W, R][]; missing: W[]; extra: R[] } {
  const candidates = wanted
    .flatMap((one, i) => read.map((other, j) => ({ i, j, alike: alike(one, other) })))
    .filter((candidate) => candidate.alike > 0)
  candidates.sort((a, b) => b.alike - a.alike || Math.abs(a.i - a.j) - Math.abs(b.i - b.j) || a.i - b.i || a.j - b.j)
  const [ofWanted, ofRead] = [new Map<number, number>(), new Set<number>()]
  for (const { i, j } of candidates) {
    if (ofWanted.has(i) || ofRead.has(j)) continue
    ofWanted.set(i, j)
    ofRead.add(j)
  }
  return {
    pairs: wanted.flatMap((one, i): [W, R][] => (ofWanted.has(i) ? [[one, read[ofWanted.get(i) as number] as R]] : [])),
    missing: wanted.filter((_, i) => !ofWanted.has(i)),
    extra: read.filter((_, j) => !ofRead.has(j)),
  }
}

const threadLikeness = (wanted: TruthThread, { named }: { named: NamedThread }): number =>
  4 * Math.max(likeness(wanted.code, named.code?.value), likeness(wanted.code, named.name?.value)) +
  3 * Math.max(likeness(wanted.name, named.name?.value), likeness(wanted.name, named.code?.value))

const effectiveStitches = (line: TruthLine): Set<Stitch> =>
  new Set([...(line.stitches ?? []), ...line.amounts.flatMap((amount) => (amount.kind === 'stitches' ? [amount.stitch] : []))])
const effectiveRead = (line: ReadKeyLine): Set<Stitch> =>
  new Set([
    ...(line.stitches?.value ?? []),
    ...line.amounts.flatMap((amount) => (amount.kind === 'stitches' ? [amount.stitch] : [])),
  ])
const isFull = (set: Set<Stitch>): boolean => set.size === 0 || (set.size === 1 && set.has('full'))
const isSameSet = (a: Set<Stitch>, b: Set<Stitch>): boolean =>
  (isFull(a) && isFull(b)) || (a.size === b.size && [...a].every((stitch) => b.has(stitch)))

/** The same pair is asked about for its line, its list and its design: work it out once. */
function remembered<W extends object, R extends object>(alike: (wanted: W, read: R) => number): (wanted: W, read: R) => number {
  const known = new WeakMap<W, WeakMap<R, number>>()
  return (wanted, read) => {
    const of = known.get(wanted) ?? new WeakMap<R, number>()
    known.set(wanted, of)
    const found = of.get(read) ?? alike(wanted, read)
    of.set(read, found)
    return found
  }
}

const lineLikeness = remembered((wanted: TruthLine, read: ReadKeyLine): number => {
  const { pairs } = pairUp(wanted.threads, read.threads, threadLikeness)
  const threads = pairs.reduce((sum, [one, other]) => sum + threadLikeness(one, other), 0)
  const hasSymbol = wanted.symbol !== null && read.symbol?.value === wanted.symbol
  if (threads === 0 && !hasSymbol) return 0
  return (
    threads / Math.max(1, wanted.threads.length) +
    (hasSymbol ? 2 : 0) +
    (isSameSet(effectiveStitches(wanted), effectiveRead(read)) ? 0.5 : 0) +
    (wanted.threads.length === read.threads.length ? 0.5 : 0) +
    0.25 * pairUp(wanted.amounts, read.amounts, (one, other) => (isSameAmount(one, other) ? 1 : 0)).pairs.length
  )
})

const amountOf = (amount: ReadAmount): ReadField<number> =>
  amount.kind === 'stitches' ? amount.count : amount.kind === 'put-ups' ? amount.hundredths : amount.tenths
const amountFigure = (amount: TruthAmount): number =>
  amount.kind === 'stitches' ? amount.count : amount.kind === 'put-ups' ? amount.hundredths : amount.tenths
const isSameKind = (wanted: TruthAmount, read: ReadAmount): boolean =>
  wanted.kind === read.kind && (wanted.kind !== 'stitches' || (read.kind === 'stitches' && read.stitch === wanted.stitch))
const isSameAmount = (wanted: TruthAmount, read: ReadAmount): boolean =>
  isSameKind(wanted, read) && amountFigure(wanted) === amountOf(read).value
const amountField = ({ kind }: { kind: TruthAmount['kind'] }): ScoredField => (kind === 'stitches' ? 'stitch count' : kind)

class Scoring {
  readonly byField = new Map<ScoredField, Tally>(scoredFields.map((field) => [field, emptyTally()]))
  readonly faults: Fault[] = []
  at = ''

  right(field: ScoredField): void {
    this.tally(field).right += 1
  }
  wrong(field: ScoredField, wanted: unknown, read: unknown, confidence: number): void {
    this.tally(field).wrong += 1
    this.fault(field, 'wrong', wanted, read, confidence)
  }
  missing(field: ScoredField, wanted: unknown): void {
    this.tally(field).missing += 1
    this.fault(field, 'missing', wanted, null, null)
  }
  extra(field: ScoredField, read: unknown, confidence: number): void {
    this.tally(field).extra += 1
    this.fault(field, 'extra', null, read, confidence)
  }

  /** One field: `isRight` is asked only when both are there. `isImplied`: what was read where nothing stands is no addition. */
  field<W, R>(
    field: ScoredField,
    wanted: W | null,
    read: ReadField<R> | null,
    isRight: (wanted: W, read: R) => boolean,
    isImplied: (read: R) => boolean = () => false,
  ): void {
    if (wanted === null) {
      if (read !== null && !isImplied(read.value)) this.extra(field, read.value, read.confidence)
    } else if (read === null) this.missing(field, wanted)
    else if (isRight(wanted, read.value)) this.right(field)
    else this.wrong(field, wanted, read.value, read.confidence)
  }

  private tally(field: ScoredField): Tally {
    return this.byField.get(field) as Tally
  }
  private fault(field: ScoredField, kind: Fault['kind'], wanted: unknown, read: unknown, confidence: number | null): void {
    if (kind !== 'missing' && confidence !== null && confidence >= sureEnough) this.tally(field).confidentlyWrong += 1
    const said = (value: unknown) => (value === null ? null : typeof value === 'string' ? value : JSON.stringify(value))
    this.faults.push({ field, kind, wanted: said(wanted), read: said(read), confidence, at: this.at })
  }
}

/**
 * Hold a reading against what a document says, field by field.
 *
 * Designs, lists and lines are paired by what is in them, not by their order alone. A line that was not read leaves each of its fields missing, a
 * line that was made of something else makes each of its fields extra; a line in the wrong list or design is both. A part that the document says
 * nothing of (`null`) is not counted when it was left out, and is extra when it was made up. What the document does not say but the vocabulary
 * does of the very thread that is meant (its maker, say) is neither.
 */
export function scoreReading(wanted: readonly TruthDesign[], reading: KeyReading): Score {
  const scoring = new Scoring()
  const read = reading.designs.filter(
    ({ facts, lists }) => lists.some(({ lines }) => lines.length > 0) || Object.values(facts).some((fact) => fact !== null),
  )
  const { pairs, missing, extra } = pairUp(wanted, read, designLikeness)
  // A design that is like none of those read is held against the first of the others, so that what was read of it counts as it stands.
  const left = [...missing.map((one) => [one, extra.shift() ?? null] as const)]
  for (const [one, other] of [...pairs, ...left]) scoreDesign(scoring, one, other)
  for (const design of extra) scoreExtraDesign(scoring, design)
  return { byField: scoring.byField, faults: scoring.faults }
}

function designLikeness(wanted: TruthDesign, read: ReadDesign): number {
  const lists = pairUp(wanted.lists, read.lists, listLikeness).pairs.reduce(
    (sum, [one, other]) => sum + listLikeness(one, other),
    0,
  )
  const { title } = wanted.facts
  return lists + (title !== null && read.facts.title !== null && isSame(title, read.facts.title.value) ? 5 : 0)
}

const listLikeness = remembered((wanted: TruthList, read: ReadList): number =>
  pairUp(wanted.lines, read.lines, lineLikeness).pairs.reduce((sum, [one, other]) => sum + lineLikeness(one, other), 0),
)

const noFactsRead: ReadDesign['facts'] = {
  title: null,
  designer: null,
  widthStitches: null,
  heightStitches: null,
  measuredWidthUm: null,
  measuredHeightUm: null,
  count: null,
  over: null,
  weave: null,
  cloth: null,
}

function scoreDesign(scoring: Scoring, wanted: TruthDesign, read: ReadDesign | null): void {
  scoring.at = wanted.facts.title ?? 'no title'
  scoreFacts(scoring, wanted, read?.facts ?? noFactsRead)
  const { pairs, missing, extra } = pairUp(wanted.lists, read?.lists ?? [], listLikeness)
  for (const [list, other] of pairs) {
    const lines = pairUp(list.lines, other.lines, lineLikeness)
    for (const [line, readLine] of lines.pairs) scoreLine(scoring, line, readLine)
    for (const line of lines.missing) scoreMissingLine(scoring, line)
    for (const line of lines.extra) scoreExtraLine(scoring, line)
  }
  for (const line of missing.flatMap((list) => list.lines)) scoreMissingLine(scoring, line)
  for (const line of extra.flatMap((list) => list.lines)) scoreExtraLine(scoring, line)
}

function scoreExtraDesign(scoring: Scoring, { facts, lists }: ReadDesign): void {
  scoring.at = 'no such design'
  for (const [field, fact] of Object.entries(facts) as [keyof TruthFacts, ReadField<unknown> | null][]) {
    if (fact !== null) scoring.extra(field, fact.value, fact.confidence)
  }
  for (const line of lists.flatMap(({ lines }) => lines)) scoreExtraLine(scoring, line)
}

const clothWords = (text: string): string[] =>
  folded(text)
    .split(/[^\p{L}\p{N}.½¼¾]+/u)
    .filter((word) => word !== '')

function scoreFacts(scoring: Scoring, { facts, notAsked }: TruthDesign, read: ReadDesign['facts']): void {
  const isAsked = (field: keyof TruthFacts) => !notAsked.includes(field)
  for (const field of ['title', 'designer'] as const) if (isAsked(field)) scoring.field(field, facts[field], read[field], isSame)
  for (const field of ['widthStitches', 'heightStitches'] as const)
    if (isAsked(field)) scoring.field(field, facts[field], read[field], Object.is)
  for (const field of ['measuredWidthUm', 'measuredHeightUm'] as const) {
    if (isAsked(field)) scoring.field(field, facts[field], read[field], (one, other) => Math.abs(one - other) <= 1)
  }
  if (isAsked('count')) scoring.field('count', facts.count, read.count, sameCount)
  // Aida is worked over one, whether or not that is said.
  if (isAsked('over')) scoring.field('over', facts.over, read.over, Object.is, (over) => over === 1 && facts.weave === 'block')
  if (isAsked('weave')) scoring.field('weave', facts.weave, read.weave, Object.is)
  if (isAsked('cloth')) {
    scoring.field('cloth', facts.cloth, read.cloth, ({ essential, whole }, said) => {
      const [words, all] = [clothWords(said), new Set(whole.flatMap(clothWords))]
      return essential.flatMap(clothWords).every((word) => words.includes(word)) && words.every((word) => all.has(word))
    })
  }
}

function scoreLine(scoring: Scoring, wanted: TruthLine, read: ReadKeyLine): void {
  scoring.right('line')
  if (wanted.isDrawn) {
    // Nothing read, or nothing sure, is as good as it gets for a drawing that is no letter.
    if (read.symbol !== null) scoring.field('drawn symbol', wanted.symbol ?? '(drawn)', read.symbol, Object.is)
    else scoring.missing('drawn symbol', wanted.symbol ?? '(drawn)')
  } else scoring.field('symbol', wanted.symbol, read.symbol, Object.is)
  const { pairs, missing, extra } = pairUp(wanted.threads, read.threads, (one, other) => threadLikeness(one, other) + 0.001)
  for (const [thread, other] of pairs) scoreThread(scoring, thread, other)
  for (const thread of missing) scoreMissingThread(scoring, thread)
  for (const thread of extra) scoreExtraThread(scoring, thread)

  const [stitches, readStitches] = [effectiveStitches(wanted), effectiveRead(read)]
  // Crosses are what is meant where nothing is said: that is not counted as read.
  if (!(isFull(stitches) && isFull(readStitches))) {
    const confidence = Math.max(
      0,
      read.stitches?.confidence ?? 0,
      ...read.amounts.flatMap((amount) => (amount.kind === 'stitches' ? [amount.count.confidence] : [])),
    )
    if (isSameSet(stitches, readStitches)) scoring.right('stitches')
    else if (readStitches.size === 0) scoring.missing('stitches', [...stitches])
    else if (stitches.size === 0) scoring.extra('stitches', [...readStitches], confidence)
    else scoring.wrong('stitches', [...stitches], [...readStitches], confidence)
  }
  const amounts = pairUp(wanted.amounts, read.amounts, (one, other) =>
    isSameAmount(one, other) ? 2 : isSameKind(one, other) ? 1 : 0,
  )
  for (const [amount, other] of amounts.pairs)
    scoring.field(amountField(amount), amountFigure(amount), amountOf(other), Object.is)
  for (const amount of amounts.missing) scoring.missing(amountField(amount), amountFigure(amount))
  for (const amount of amounts.extra) scoring.extra(amountField(amount), amountOf(amount).value, amountOf(amount).confidence)
}

const hasDigit = (text: string): boolean => /\d/u.test(text)

function scoreThread(scoring: Scoring, wanted: TruthThread, { named, match }: ReadKeyLine['threads'][number]): void {
  const { implied } = wanted
  scoring.field('maker', wanted.maker, named.maker, isSame, (maker) => isSame(maker, implied.maker))
  scoring.field('thread line', wanted.threadLine, named.threadLine, isSame, (threadLine) =>
    isSame(threadLine, implied.threadLine),
  )
  // A thread called by a name alone has its name for a code, so either place will do; so has Ecru.
  const code = wanted.code !== null && !hasDigit(wanted.code) && named.code === null ? named.name : named.code
  const isByName = wanted.code !== null && !hasDigit(wanted.code)
  scoring.field(
    'code',
    wanted.code,
    code,
    (one, other) => (isByName ? isSame(one, other) : one === other),
    (read) => [implied.code, wanted.name].some((called) => called !== null && isSame(called, read)),
  )
  scoring.field('name', wanted.name, named.name ?? (wanted.code === null || isByName ? named.code : null), isSame, (read) =>
    [implied.name, wanted.code].some((called) => called !== null && isSame(called, read)),
  )
  scoring.field('strands', wanted.strands, named.strands, Object.is)
  const { meant } = wanted
  const said = meant.kind === 'known' ? meant.threadId : meant.kind
  if (match.kind === 'known') {
    if (meant.kind === 'known' && meant.threadId === match.threadId) scoring.right('thread')
    else scoring.wrong('thread', said, `${match.threadId} by ${match.by}`, match.confidence)
  } else if (meant.kind === 'new') scoring.right('thread')
  else if (meant.kind === 'several' && match.kind === 'several' && meant.threadIds.every((id) => match.threadIds.includes(id)))
    scoring.right('thread')
  else scoring.missing('thread', said)
}

function scoreMissingThread(scoring: Scoring, thread: TruthThread): void {
  const parts: [ScoredField, string | number | null][] = [
    ['maker', thread.maker],
    ['thread line', thread.threadLine],
    ['code', thread.code],
    ['name', thread.name],
    ['strands', thread.strands],
    ['thread', thread.meant.kind === 'known' ? thread.meant.threadId : thread.meant.kind],
  ]
  for (const [field, value] of parts) if (value !== null) scoring.missing(field, value)
}

function scoreExtraThread(scoring: Scoring, { named, match }: ReadKeyLine['threads'][number]): void {
  const parts: [ScoredField, ReadField<string | number> | null][] = [
    ['maker', named.maker],
    ['thread line', named.threadLine],
    ['code', named.code],
    ['name', named.name],
    ['strands', named.strands],
  ]
  for (const [field, read] of parts) if (read !== null) scoring.extra(field, read.value, read.confidence)
  if (match.kind === 'known') scoring.extra('thread', match.threadId, match.confidence)
}

function scoreMissingLine(scoring: Scoring, line: TruthLine): void {
  scoring.missing('line', line.threads.map(({ code, name }) => code ?? name).join('+'))
  if (line.isDrawn) scoring.missing('drawn symbol', line.symbol ?? '(drawn)')
  else if (line.symbol !== null) scoring.missing('symbol', line.symbol)
  for (const thread of line.threads) scoreMissingThread(scoring, thread)
  if (!isFull(effectiveStitches(line))) scoring.missing('stitches', [...effectiveStitches(line)])
  for (const amount of line.amounts) scoring.missing(amountField(amount), amountFigure(amount))
}

function scoreExtraLine(scoring: Scoring, line: ReadKeyLine): void {
  const fields: [ScoredField, ReadField<unknown> | null][] = [
    ['symbol', line.symbol],
    ['stitches', line.stitches],
    ...line.amounts.map((amount): [ScoredField, ReadField<unknown>] => [amountField(amount), amountOf(amount)]),
  ]
  const sure = [
    ...fields.map(([, read]) => read?.confidence ?? 0),
    ...line.threads.flatMap(({ named }) => Object.values(named).map((read) => read?.confidence ?? 0)),
    0,
  ]
  scoring.extra(
    'line',
    line.threads.map(({ named }) => named.code?.value ?? named.name?.value ?? '').join('+') || line.rest,
    Math.max(...sure),
  )
  for (const [field, read] of fields) if (read !== null) scoring.extra(field, read.value, read.confidence)
  for (const thread of line.threads) scoreExtraThread(scoring, thread)
}
