import type { Stitch } from '#lib/thread/stitches'
import type { FoundAmount } from './amounts'
import type { ReadField } from './reading'
import type { PhraseBook, Vocabulary } from './vocabulary'

/** A number that says nothing of what it counts; `thread` is the index of the thread it stands behind. */
export type LoneNumber = {
  value: number
  isWhole: boolean
  isBracketed: boolean
  cell: number
  thread: number
  certainty: number
}

/** A thread as one line names it, before what headings say is added. */
export type DraftThread = {
  maker: ReadField<string> | null
  threadLine: ReadField<string> | null
  code: ReadField<string> | null
  name: ReadField<string> | null
  strands: ReadField<number> | null
}

export type DraftAmount = Exclude<FoundAmount, { kind: 'strands' }> & { confidence: number }

/** What was made of one line, before what stands around it is taken into account. */
export type Draft = {
  source: number
  symbol: ReadField<string> | null
  threads: DraftThread[]
  worked: ReadField<Stitch[]> | null
  amounts: DraftAmount[]
  lone: LoneNumber[]
  rest: string[]
  /** It begins with a sign that joins it to the line before. */
  isContinued: boolean
  /** Words right before and right behind the code, of which a maker may be learnt when they come again and again. */
  beside: { before: string | null; behind: string | null }
}

export type LineContext = {
  known: Vocabulary
  /** Makers known, and those learnt from the text. */
  makers: PhraseBook<string>
  /** The maker that headings give. */
  maker: string | null
  threadLine: string | null
  /** Shapes of the codes of this list, by how many of them there are. */
  shapes: ReadonlySet<string>
  /** Whether the lines of this list begin with symbols, as far as is known. */
  hasSymbols: boolean | null
  /** Signs that begin line after line and are bullets. */
  bullets: ReadonlySet<string>
  /** A plus before a line joins it to the line before, and is no symbol. */
  plusJoins: boolean
  /** Whether codes of digits are to be expected at all. */
  hasCodes: boolean
}

/** The shape of a code: `dddd`, `a-dd`. */
export const shapeOf = (code: string): string => code.replace(/\d/g, 'd').replace(/\p{L}/gu, 'a')
