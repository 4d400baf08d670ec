import {
  type KeyReading,
  type NamedThread,
  type ReadAmount,
  type ReadFacts,
  type ReadField,
  type ReadKeyLine,
  sureEnough,
} from './key-text/reading'
import type { LinePlace } from './key-text/teach'

/**
 * How a field that was read stands: nothing more to do (sure), to be looked at (look), one of several threads to be chosen (choose), a thread
 * that would be new (new), one that names too little for a new thread (lacking), or nothing there (empty).
 */
export type FieldStanding = 'sure' | 'look' | 'choose' | 'new' | 'lacking' | 'empty'

/** A field of a key line under review. */
export type LineField =
  | { kind: 'symbol' }
  | { kind: 'thread'; thread: number }
  | { kind: 'strands'; thread: number }
  | { kind: 'stitches' }
  | { kind: 'amount'; amount: number }

export type FieldAt = { place: LinePlace; field: LineField; standing: FieldStanding }

/** Standings a person has something to do about before it can be taken as read. */
export const needsLook = (standing: FieldStanding): boolean =>
  standing === 'look' || standing === 'choose' || standing === 'lacking'

export const standingOf = (field: ReadField<unknown> | null): FieldStanding =>
  field === null ? 'empty' : isSure(field) ? 'sure' : 'look'

const isSure = (field: ReadField<unknown>): boolean => field.byHand === true || field.confidence >= sureEnough

/** How a thread stands: its match; for one that would be new, how sure what it is called is. */
export function threadStanding({ named, match }: ReadKeyLine['threads'][number]): FieldStanding {
  switch (match.kind) {
    case 'known':
      return match.confidence >= sureEnough ? 'sure' : 'look'
    case 'several':
      return 'choose'
    case 'new':
      if (match.lacks.some((part) => part !== 'thread line')) return 'lacking'
      return namingFields(named).every(isSure) ? 'new' : 'look'
  }
}

const namingFields = ({ maker, threadLine, code }: NamedThread): ReadField<unknown>[] =>
  [maker, threadLine, code].filter((field) => field !== null)

export const amountField = (amount: ReadAmount): ReadField<number> => {
  switch (amount.kind) {
    case 'stitches':
      return amount.count
    case 'put-ups':
      return amount.hundredths
    case 'length':
      return amount.tenths
  }
}

/** The fields of a line in the order they are looked through, those that are empty left out. */
export function lineFields(line: ReadKeyLine, place: LinePlace): FieldAt[] {
  const fields: FieldAt[] = []
  const add = (field: LineField, standing: FieldStanding) => {
    if (standing !== 'empty') fields.push({ place, field, standing })
  }
  add({ kind: 'symbol' }, standingOf(line.symbol))
  if (line.threads.length === 0) add({ kind: 'thread', thread: 0 }, 'lacking')
  line.threads.forEach((thread, index) => {
    add({ kind: 'thread', thread: index }, threadStanding(thread))
    add({ kind: 'strands', thread: index }, standingOf(thread.named.strands))
  })
  add({ kind: 'stitches' }, standingOf(line.stitches))
  line.amounts.forEach((amount, index) => {
    add({ kind: 'amount', amount: index }, standingOf(amountField(amount)))
  })
  return fields
}

/** Every line of a reading with its place, in order. */
export const linesOf = ({ designs }: KeyReading): { line: ReadKeyLine; place: LinePlace }[] =>
  designs.flatMap(({ lists }, design) =>
    lists.flatMap(({ lines }, list) => lines.map((line, index) => ({ line, place: { design, list, line: index } }))),
  )

export const factNames = [
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
] as const satisfies readonly (keyof ReadFacts)[]

/** What there is to do about a reading, in figures. `unread`: source lines nobody has dismissed. */
export type ReadingSum = { lines: number; toLookAt: number; newThreads: number; unread: number }

export function sumReading(reading: KeyReading, dismissed: readonly number[]): ReadingSum {
  const lines = linesOf(reading)
  const fields = lines.flatMap(({ line, place }) => lineFields(line, place))
  const facts = reading.designs.flatMap((design) => factNames.map((name) => standingOf(design.facts[name])))
  const isDismissed = new Set(dismissed)
  return {
    lines: lines.length,
    toLookAt: [...fields.map(({ standing }) => standing), ...facts].filter(needsLook).length,
    newThreads: fields.filter(({ standing }) => standing === 'new').length,
    unread: reading.unread.filter((line) => !isDismissed.has(line)).length,
  }
}
