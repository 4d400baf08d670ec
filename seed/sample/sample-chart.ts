import type { SampleTally } from './need'
import type { SampleThread } from './threads'

export type SampleKeyLine = {
  symbol: string
  threads: { thread: SampleThread; strands: number }[]
  tally?: SampleTally
  /** Stated put-ups as printed, one for each thread; the put-up they are of is the line's own unless `putUp` says. */
  skeins?: string
  putUp?: string
}

export type SampleList = { name: string; keyLines: SampleKeyLine[] }

export type SampleDesign = {
  title: string
  season: string
  subject: string
  form: string
  cover: string
  /** Cells as printed: stitches, or a length with its unit. */
  width: string
  height: string
  widthStitches: number
  heightStitches: number
  count: string
  stitchesPerInch: number
  cloth: string
  weave: string
  insists: boolean
  lists: SampleList[]
}

export type SampleChart = {
  title: string
  designer: string
  kind: string
  owner: string
  place: string
  nowAt?: string
  copies: number
  edition?: string
  partsHeld?: number
  partsNeeded?: number
  bought: string
  price: string
  note?: string
  designs: SampleDesign[]
}

/** Finds a thread of a line by its code or, in a numbered line, its name. */
export const threadFinder =
  (threads: SampleThread[]) =>
  (line: { line: string }, codeOrName: string): SampleThread => {
    const found = threads.find(
      (thread) => thread.line.line === line.line && (thread.code === codeOrName || thread.name === codeOrName),
    )
    if (!found) throw new RangeError(`threadFinder: no thread ${line.line} ${codeOrName}`)
    return found
  }
