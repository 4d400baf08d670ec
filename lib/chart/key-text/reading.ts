import type { Count } from '#lib/quantity/count'
import type { Stitch } from '#lib/thread/stitches'

/**
 * A field that was read: what it says, how sure that is (0 to 1), and the source line it stands in (null: it stands nowhere, it follows).
 * What a person set `byHand` is sure, and nothing that is taught overwrites it.
 */
export type ReadField<T> = { value: T; confidence: number; line: number | null; byHand?: true }

/** A field below this is shown to be looked at; a wrong one at or above it is the worst that can happen. */
export const sureEnough = 0.8

/** A thread as the text names it; each part null where the text says nothing. */
export type NamedThread = {
  maker: ReadField<string> | null
  threadLine: ReadField<string> | null
  /** Exact, with its zeros. */
  code: ReadField<string> | null
  name: ReadField<string> | null
  strands: ReadField<number> | null
}

/** Which thread of the collection is meant: found, one of several, or none that is known. Never invented. */
export type ThreadMatch =
  | { kind: 'known'; threadId: string; confidence: number; by: 'code' | 'code and name' | 'name' | 'taught' }
  | { kind: 'several'; threadIds: string[] }
  /** To be added as new, if a person says so: what the text names is enough for a thread (maker, line and code) or lacks something. */
  | { kind: 'new'; lacks: ('maker' | 'thread line' | 'code')[] }

/** What is used: stitches by their kind, put-ups in hundredths, or a length in tenths of a millimetre. */
export type ReadAmount =
  | { kind: 'stitches'; stitch: Stitch; count: ReadField<number> }
  | { kind: 'put-ups'; hundredths: ReadField<number>; putUpWord: string | null }
  | { kind: 'length'; tenths: ReadField<number> }

export type ReadKeyLine = {
  /** The source lines it was read from, in order. */
  from: number[]
  symbol: ReadField<string> | null
  /** One thread, or several of a blend. */
  threads: { named: NamedThread; match: ThreadMatch }[]
  /** What the line is worked in, where it says so: a backstitch line of a key that has no count. */
  stitches: ReadField<Stitch[]> | null
  amounts: ReadAmount[]
  /** Words on the line that none of this took. */
  rest: string | null
}

/** What the text says of the design itself. */
export type ReadFacts = {
  title: ReadField<string> | null
  designer: ReadField<string> | null
  widthStitches: ReadField<number> | null
  heightStitches: ReadField<number> | null
  /** Ruled, in micrometres. */
  measuredWidthUm: ReadField<number> | null
  measuredHeightUm: ReadField<number> | null
  /** Threads per inch or per 10 cm of the cloth advised: a rational. */
  count: ReadField<Count> | null
  over: ReadField<1 | 2> | null
  weave: ReadField<'block' | 'single'> | null
  cloth: ReadField<string> | null
}

/** One palette of one design: "cotton", "hand-dyed", or unnamed. */
export type ReadList = { name: string | null; lines: ReadKeyLine[] }

export type ReadDesign = { facts: ReadFacts; lists: ReadList[] }

/** All that was made of a text. Every source line is in a key line, holds a fact, is a heading or is blank, or stands in `unread`. */
export type KeyReading = { designs: ReadDesign[]; unread: number[] }

/** A thread of the collection, as the reader needs it. */
export type KnownThread = {
  id: string
  maker: string
  threadLine: string
  code: string
  name: string | null
  formerCodes?: string[]
}

/** A fact as a line of text gives it. `weight`: how plainly it is said; of two that differ, the plainer stands. */
export type FoundFact = {
  [K in keyof ReadFacts]: { fact: K; value: NonNullable<ReadFacts[K]>['value']; confidence: number; weight: number }
}[keyof ReadFacts]
