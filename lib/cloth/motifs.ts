import type { ClothRequest } from './fit'
import type { Margins } from './margins'

/** The same design worked several times on one cloth, so many across and so many down. */
export type Motifs = {
  across: number
  down: number
  /** Plain threads (blocks, on block cloth) between one and the next. */
  gapThreads: number
}

export const oneMotif: Readonly<Motifs> = { across: 1, down: 1, gapThreads: 0 }

/** What is asked of cloth, whatever its count. */
export type SizeQuestion = {
  /** Of one motif, in stitches. */
  width: number
  height: number
  /** Half the step an estimated size was ruled to; 0 when the stitches are known. */
  uncertaintyUm: number
  motifs: Motifs
  margins: Margins
  shrinkPercent: number
  roundingUm: number
}

/**
 * The outer box of the motifs, in threads: three across of 40 stitches over two with 11 threads between are 3 × 80 + 2 × 11 = 262. A gap
 * need not be a whole number of stitches, so inches and stitches would both lose by it.
 *
 * @throws {RangeError} if there is not a whole number of motifs, one at least each way, or the gap is no whole number of threads.
 */
export function motifBox(
  { width, height }: { width: number; height: number },
  over: 1 | 2,
  motifs: Motifs,
): { widthThreads: number; heightThreads: number } {
  const { across, down, gapThreads } = motifs
  for (const many of [across, down])
    if (!Number.isSafeInteger(many) || many < 1) throw new RangeError(`motifBox: ${across} × ${down} motifs`)
  if (!Number.isSafeInteger(gapThreads) || gapThreads < 0) throw new RangeError(`motifBox: gap of ${gapThreads} threads`)
  const outer = (many: number, stitches: number) => many * stitches * over + (many - 1) * gapThreads
  return { widthThreads: outer(across, width), heightThreads: outer(down, height) }
}

/**
 * The question as a piece of cloth is asked it, counted in threads, so that a `FinishedSize` of it has the pitch of one thread. Each
 * motif of an estimated size may be out by as much, so the row with most of them decides.
 */
export function requestInThreads(question: SizeQuestion, over: 1 | 2): ClothRequest {
  const { motifs, margins, shrinkPercent, roundingUm } = question
  const { widthThreads, heightThreads } = motifBox(question, over, motifs)
  return {
    width: widthThreads,
    height: heightThreads,
    over: 1,
    uncertaintyUm: question.uncertaintyUm * Math.max(motifs.across, motifs.down),
    margins,
    shrinkPercent,
    roundingUm,
  }
}
