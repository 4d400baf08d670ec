import type { AdvisedCloth, CoverKind } from '#lib/chart/design'
import type { StitchSize } from '#lib/chart/design-size'
import type { KeyLine, KeyLineThread, ThreadList } from '#lib/chart/thread-list'
import { type Certainty, weakestCertainty } from '#lib/quantity/certainty'
import { type Count, pitchUm } from '#lib/quantity/count'
import { rescaleStated } from '#lib/thread/put-ups'
import type { Stitch, StitchTally, Working } from '#lib/thread/stitches'
import type { ThreadLine } from '#lib/thread/thread'
import { roundUpTenths, type ThreadUse, threadUse } from '#lib/thread/thread-use'

/** The cloth a design is to be worked on. `isTurned`: its width runs along the warp. */
export type WorkedCloth = { ends: Count; picks: Count; over: 1 | 2; isTurned: boolean }

/** Threads charted with `charted` strands are worked with `yours`. */
export type StrandsChange = { charted: number; yours: number }

export type NeedSettings = { allowance: number }

/** One key line's part in the need of one thread, with all its figures. `chartedStrands` and `strands` are of this thread. */
export type NeedPart = { keyLineId: string; symbol: string | null; strandTenths: number } & (
  | { kind: 'tally'; tally: StitchTally; strands: number; working: Working; acrossUm: number; upUm: number; use: ThreadUse }
  | {
      kind: 'stated'
      hundredths: number
      putUpStrandTenths: number
      chartPitchUm: number
      yourPitchUm: number
      chartedStrands: number
      strands: number
      leastStrandTenths: number
    }
  | {
      kind: 'estimated'
      /** The share of full crosses this line was given, and what it is a share of. */
      stitches: number
      width: number
      height: number
      coverPerMille: number
      talliedStitches: number
      sharedByLines: number
      strands: number
      working: Working
      acrossUm: number
      upUm: number
      use: ThreadUse
    }
  | { kind: 'assumed'; putUpStrandTenths: number }
)

/** What a thread list asks of one thread, every use summed. The need lies above `leastStrandTenths`; one plans on `strandTenths`. */
export type ThreadNeed = {
  threadId: string
  strandTenths: number
  leastStrandTenths: number
  certainty: Certainty
  from: NeedPart[]
}

/** The count taken for granted when a design names none and no cloth is chosen. */
export const assumedCount: Count = { threads: 14, perUm: 25_400 }

/** The middle of the usual share of the outline that is stitched, in thousandths. Common practice, no published source. */
export const coverPerMille: Readonly<Record<CoverKind, number>> = {
  'band sampler': 350,
  'motif sampler': 275,
  picture: 650,
  full: 1_000,
}

type Pitches = { acrossUm: number; upUm: number }

/** Squares of the design that one stitch fills; outlines fill none, and of satin the key does not say how close its throws lie. */
const squaresFilled = { full: 1, half: 1, quarter: 1, threeQuarter: 1, tent: 1, eyelet: 4 } as const satisfies StitchTally
const hasTally = (line: KeyLine): boolean => line.tally !== null && Object.values(line.tally).some((tally) => tally > 0)
const squaresOf = (line: KeyLine): number =>
  Object.entries(squaresFilled).reduce((sum, [stitch, filled]) => sum + filled * (line.tally?.[stitch as Stitch] ?? 0), 0)

/** The side of the square whose diagonal is the stitch's: one pitch to rescale by on cloth that is not square. */
const meanPitchUm = ({ acrossUm, upUm }: Pitches): number =>
  acrossUm === upUm ? acrossUm : Math.hypot(acrossUm, upUm) / Math.SQRT2

function pitchesOf(cloth: WorkedCloth | null, advised: AdvisedCloth | null): Pitches {
  if (cloth) {
    const { ends, picks, over, isTurned } = cloth
    return { acrossUm: pitchUm(isTurned ? picks : ends, over), upUm: pitchUm(isTurned ? ends : picks, over) }
  }
  const bothUm = advised ? pitchUm(advised.count, advised.over) : pitchUm(assumedCount, 1)
  return { acrossUm: bothUm, upUm: bothUm }
}

/** How many full crosses each line without stitch counts is given, or null when size or kind is not known or nothing is left to share. */
function shareOf(list: ThreadList, size: StitchSize | null, coverKind: CoverKind | null) {
  if (size === null || coverKind === null) return null
  const talliedStitches = list.keyLines.reduce((sum, line) => sum + squaresOf(line), 0)
  const sharedByLines = list.keyLines.filter((line) => !hasTally(line)).length
  const perMille = coverPerMille[coverKind]
  const left = (size.width * size.height * perMille) / 1_000 - talliedStitches
  if (sharedByLines === 0 || left <= 0) return null
  const stitches = Math.ceil(left / sharedByLines)
  return { stitches, width: size.width, height: size.height, coverPerMille: perMille, talliedStitches, sharedByLines }
}

/**
 * What a thread list needs of each thread, summed over all its key lines before anything is rounded to put-ups.
 *
 * A line with stitch counts goes by geometry and allowance on the chosen cloth's pitches, else the advised count's, else 14 to the inch
 * (`assumed`). A thread with stated put-ups is planned on the top of their range, rescaled when cloth or strands change; where the chart
 * names no count there is nothing to rescale from, and only the strands count. A line with neither is given an equal share of the
 * crosses the design's size and kind leave over (`estimated`); where they are not known, the thread is taken to need one put-up
 * (`assumed`), once however many such lines it has. Each thread of a blend counts its own strands, in knots and outlines too.
 *
 * @param lines   The line of every thread in the list, by thread.
 * @param size    In stitches; null when not known.
 * @param strands Work threads charted with so many strands with another number.
 * @returns       Needs in the order of the key.
 * @throws {RangeError} if a thread's line is missing from `lines`.
 */
export function needOfList(input: {
  list: ThreadList
  lines: ReadonlyMap<string, ThreadLine>
  advised: AdvisedCloth | null
  size: StitchSize | null
  coverKind: CoverKind | null
  settings: NeedSettings
  cloth?: WorkedCloth | null
  strands?: StrandsChange | null
}): ThreadNeed[] {
  const { list, advised, settings } = input
  const cloth = input.cloth ?? null
  const pitches = pitchesOf(cloth, advised)
  const yourPitchUm = meanPitchUm(pitches)
  const chartPitchUm = advised ? pitchUm(advised.count, advised.over) : yourPitchUm
  const share = shareOf(list, input.size, input.coverKind)
  const pitchCertainty: Certainty = cloth || advised ? 'measured' : 'assumed'
  const needs = new Map<string, ThreadNeed>()
  const known = new Map<string, Certainty[]>()

  function partOf(keyLine: KeyLine, thread: KeyLineThread, line: ThreadLine): [NeedPart, Certainty] | null {
    const { id: keyLineId, symbol, tally } = keyLine
    const strands = input.strands && input.strands.charted === thread.strands ? input.strands.yours : thread.strands
    const { working } = line
    const { allowance } = settings
    if (tally && hasTally(keyLine)) {
      const use = threadUse({ tally, strands, working, ...pitches, allowance })
      return [
        { kind: 'tally', keyLineId, symbol, strandTenths: use.strandTenths, tally, strands, working, ...pitches, use },
        pitchCertainty,
      ]
    }
    if (thread.stated) {
      const { hundredths, putUpTenths } = thread.stated
      const putUpStrandTenths = putUpTenths === null ? line.putUpStrandTenths : putUpTenths * line.strands
      const chartedStrands = thread.strands
      const scale = { hundredths, putUpStrandTenths, chartPitchUm, yourPitchUm }
      const range = rescaleStated({ ...scale, chartStrands: chartedStrands, yourStrands: strands })
      return [{ kind: 'stated', keyLineId, symbol, ...scale, chartedStrands, strands, ...range }, 'label']
    }
    if (share) {
      const use = threadUse({ tally: { full: share.stitches }, strands, working, ...pitches, allowance })
      const certainty = weakestCertainty(['estimated', pitchCertainty])
      return [
        { kind: 'estimated', keyLineId, symbol, strandTenths: use.strandTenths, ...share, strands, working, ...pitches, use },
        certainty,
      ]
    }
    if (needs.get(thread.threadId)?.from.some((part) => part.kind === 'assumed')) return null
    const { putUpStrandTenths } = line
    return [{ kind: 'assumed', keyLineId, symbol, strandTenths: putUpStrandTenths, putUpStrandTenths }, 'assumed']
  }

  for (const keyLine of list.keyLines) {
    for (const thread of keyLine.threads) {
      const { threadId } = thread
      const line = input.lines.get(threadId)
      if (!line) throw new RangeError(`needOfList: no line for thread ${threadId}`)
      const found = partOf(keyLine, thread, line)
      if (!found) continue
      const [part, certainty] = found
      const need = needs.get(threadId) ?? { threadId, strandTenths: 0, leastStrandTenths: 0, certainty, from: [] }
      need.strandTenths += part.strandTenths
      need.leastStrandTenths += part.kind === 'stated' ? part.leastStrandTenths : part.kind === 'assumed' ? 0 : part.strandTenths
      need.from.push(part)
      needs.set(threadId, need)
      known.set(threadId, [...(known.get(threadId) ?? []), certainty])
    }
  }
  for (const need of needs.values()) need.certainty = weakestCertainty(known.get(need.threadId) ?? [])
  return [...needs.values()]
}

/**
 * What a thread's stitches take by geometry alone, apart from knots and beads' passes, where the key counts all of them: what a use that
 * was measured can be held against.
 *
 * @param quantity  how many of the design were worked
 * @returns whole tenths of a millimetre of one strand; null where any of it is only stated, estimated or assumed, or no stitch follows
 *   the cloth.
 */
export function plainUseOf(need: ThreadNeed, quantity: number): { plainStrandTenths: number; flatStrandTenths: number } | null {
  let plain = 0
  let flat = 0
  for (const part of need.from) {
    if (part.kind !== 'tally') return null
    plain += part.use.bareStrandTenths
    flat += part.use.flatStrandTenths
  }
  const plainStrandTenths = roundUpTenths(plain * quantity)
  return plainStrandTenths > 0 ? { plainStrandTenths, flatStrandTenths: roundUpTenths(flat * quantity) } : null
}

/** Beads a thread list has sewn on, to be counted out; those of a blend's line once, however many threads hold them. */
export const beadsOf = (list: ThreadList): number => list.keyLines.reduce((sum, line) => sum + (line.tally?.bead ?? 0), 0)

/**
 * Needs with some threads worked in others (`swaps`: charted → worked). What then falls on one thread is summed.
 *
 * @returns in the order of the first use.
 */
export function swapNeeds(needs: readonly ThreadNeed[], swaps: ReadonlyMap<string, string>): ThreadNeed[] {
  const worked = new Map<string, ThreadNeed>()
  for (const need of needs) {
    const threadId = swaps.get(need.threadId) ?? need.threadId
    const sum = worked.get(threadId)
    worked.set(threadId, {
      threadId,
      strandTenths: (sum?.strandTenths ?? 0) + need.strandTenths,
      leastStrandTenths: (sum?.leastStrandTenths ?? 0) + need.leastStrandTenths,
      certainty: weakestCertainty([need.certainty, ...(sum ? [sum.certainty] : [])]),
      from: [...(sum?.from ?? []), ...need.from],
    })
  }
  return [...worked.values()]
}
