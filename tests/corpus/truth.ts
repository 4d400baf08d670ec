import type { KnownThread } from '#lib/chart/key-text/reading'
import type { Count } from '#lib/quantity/count'
import type { Stitch } from '#lib/thread/stitches'

/** The two halves of the corpus. Whoever writes the reader looks at `train` alone; `held-out` has other templates and wording. The wider texts of `train` were held out at first and read by nobody; once the reader was written by them too, new ones took their place. */
export type Half = 'train' | 'held-out'

/** Which thread of the vocabulary is meant: that one; one of several that nothing tells apart; or none that is known. */
export type Meant = { kind: 'known'; threadId: string } | { kind: 'several'; threadIds: string[] } | { kind: 'new' }

/**
 * A thread as the document names it: a part is null where the document says nothing of it, headings and "throughout" counted as said of every
 * line below them. `implied` is what the thread is called beyond that; a reader that adds it from the vocabulary is not held to have added
 * anything.
 */
export type TruthThread = {
  maker: string | null
  threadLine: string | null
  code: string | null
  name: string | null
  strands: number | null
  implied: { maker: string; threadLine: string; code: string; name: string | null }
  meant: Meant
}

export type TruthAmount =
  | { kind: 'stitches'; stitch: Stitch; count: number }
  | { kind: 'put-ups'; hundredths: number }
  | { kind: 'length'; tenths: number }

export type TruthLine = {
  symbol: string | null
  /** The symbol is a drawing, or stands in a photograph and is neither letter nor digit: counted apart, since it is no text. */
  isDrawn: boolean
  threads: TruthThread[]
  /** What it is worked in, where the document says so. */
  stitches: Stitch[] | null
  amounts: TruthAmount[]
}

export type TruthList = { name: string | null; lines: TruthLine[] }

/** `essential` words must be read, others of `whole` may be. */
export type TruthCloth = { essential: string[]; whole: string[] }

export type TruthFacts = {
  title: string | null
  designer: string | null
  widthStitches: number | null
  heightStitches: number | null
  measuredWidthUm: number | null
  measuredHeightUm: number | null
  count: Count | null
  over: 1 | 2 | null
  weave: 'block' | 'single' | null
  cloth: TruthCloth | null
}

/** `notAsked`: facts of which the document says several things, so that none is the right one. */
export type TruthDesign = { facts: TruthFacts; notAsked: (keyof TruthFacts)[]; lists: TruthList[] }

/** A document's name, the template it was made by, the threads the reader is to know, and what it says. */
export type Made = { name: string; template: string; known: KnownThread[]; designs: TruthDesign[] }

export type CorpusText = Made & { text: string }
export type CorpusFile = Made & { bytes: Uint8Array }

export const textsInHalf = 100
export const pdfsInHalf = 30
export const photosInHalf = 30
