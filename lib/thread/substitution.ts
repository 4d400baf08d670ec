import { deltaE00 } from '#lib/colour/convert'
import { hueDegrees } from '#lib/colour/family'
import type { Lab } from '#lib/colour/lab'
import { textKey } from '#lib/quantity/text-key'
import type { Dyeing, ThreadLine } from './thread'

/**
 * What judging a swap has to know of a thread's line. `putUpMilligrams` is the thread in one put-up: with it the thickness of a strand
 * is known.
 */
export type SwapLine = Pick<ThreadLine, 'fibre' | 'strands' | 'putUpStrandTenths' | 'dyeing' | 'lotsMatter'> & {
  putUpMilligrams?: number | null
}
export type SwapThread = { threadId: string; line: SwapLine; lab: Lab | null }

/** A colour of the chart, and the thread it is to be worked in as things stand: its own, or what was chosen in its place. */
export type ChosenColour = {
  chartedThreadId: string
  chartedLab: Lab | null
  chosenThreadId: string
  chosenLab: Lab | null
}

/** What is free of a candidate, in tenths of a millimetre of one strand. */
export type SwapStock = { freeStrandTenths: number; bestLotStrandTenths: number; isSomeHeld: boolean }

export const differenceGrades = ['same', 'very-near', 'usable', 'design-change'] as const
export type DifferenceGrade = (typeof differenceGrades)[number]

/** Common practice, no published source: the largest ΔE00 that still counts as each grade. */
const gradeEnds = { same: 1, 'very-near': 2, usable: 5 } as const
/** A swap further from its original than this changes the design. */
export const usableDeltaE: number = gradeEnds.usable

export function gradeDifference(deltaE: number): DifferenceGrade {
  if (deltaE <= gradeEnds.same) return 'same'
  if (deltaE <= gradeEnds['very-near']) return 'very-near'
  return deltaE <= gradeEnds.usable ? 'usable' : 'design-change'
}

/** Common practice, no published source: colours of one chart stay so far apart, or this share of what they were apart. */
const leastApart = 3
const apartShare = 0.6
/** Common practice, no published source: lightness between thread and cloth; below it a colour was meant tone on tone. */
export const leastContrast = 15
const toneOnToneShare = 0.8
/**
 * Two colours belong to one shading run when their hues lie within a family's width of each other (Munsell's ten families are 36°
 * each), or when neither has enough chroma to have a hue one would name. Both figures were chosen, not measured.
 */
const runHueDeg = 36
const greyChroma = 10
/** Two charted colours have an order when their lightness differs by so much: at mid-grey a lightness step of 2 is a ΔE00 of 2, and no eye reads a smaller one as shading. */
const leastOrderStep = 2

/** How far two charted colours must stay apart in their swaps. */
export const leastDistance = (chartedDeltaE: number): number => Math.max(leastApart, apartShare * chartedDeltaE)

export const swapRules = ['behaviour', 'fibre', 'difference', 'apart', 'order', 'contrast', 'length'] as const
export type SwapRule = (typeof swapRules)[number]

/**
 * `passes`; `flagged`: may be chosen, but look first; `rejects`: breaks a rule. A rule that could not be judged for want of a figure is
 * flagged, but for the difference: without a colour nothing is proposed.
 */
export type SwapWeight = 'passes' | 'flagged' | 'rejects'

/** One reason for or against a swap, with its figures. */
export type SwapFinding = { weight: SwapWeight } & (
  | { rule: 'behaviour'; kind: 'same-dyeing' | 'loses-mottling' | 'brings-mottling' | 'other-mottling'; from: Dyeing; to: Dyeing }
  | { rule: 'fibre'; kind: 'same-fibre' | 'other-fibre' | 'fibre-not-known'; from: string | null; to: string | null }
  | { rule: 'fibre'; kind: 'other-strands'; chartedStrands: number; strands: number; by: 'weight' | 'parting' }
  | { rule: 'fibre'; kind: 'thickness-not-known'; fromStrands: number; toStrands: number }
  | { rule: 'difference'; kind: DifferenceGrade; deltaE: number }
  | { rule: 'difference'; kind: 'designers-own'; deltaE: number | null }
  | { rule: 'difference'; kind: 'colour-not-known'; of: 'original' | 'candidate' }
  /** `nearest` is the colour it comes closest to breaking the rule with; null when the chart has no other. */
  | { rule: 'apart'; kind: 'kept-apart'; nearest: Apart | null }
  | ({ rule: 'apart'; kind: 'too-near' } & Apart)
  | { rule: 'apart'; kind: 'shared-thread' | 'merged'; chartedThreadId: string; chosenThreadId: string }
  | { rule: 'apart'; kind: 'others-not-known'; count: number }
  | { rule: 'order'; kind: 'order-kept'; pairs: number }
  | {
      rule: 'order'
      kind: 'order-turned'
      chartedThreadId: string
      chosenThreadId: string
      /** Lightness of the original less the other's as charted, and of the candidate less the other's as chosen. */
      chartedStep: number
      step: number
    }
  | { rule: 'contrast'; kind: 'shows' | 'too-faint'; gap: number; least: number; originalGap: number; isToneOnTone: boolean }
  | { rule: 'contrast'; kind: 'cloth-not-known' }
  | {
      rule: 'length'
      kind: 'one-lot' | 'mixed-lots' | 'too-little' | 'lots-too-small'
      need: number
      free: number
      bestLot: number
      isSomeHeld: boolean
    }
)

export type Apart = { chartedThreadId: string; chosenThreadId: string; deltaE: number; chartedDeltaE: number; least: number }

export type SwapVerdict = {
  threadId: string
  isAccepted: boolean
  deltaE: number | null
  /** What the need comes to in the candidate's own strands. */
  needStrandTenths: number
  /** In the order of the rules. */
  findings: SwapFinding[]
}

export type SwapQuestion = {
  original: SwapThread
  candidate: SwapThread
  /** The other colours of the chart, as actually chosen. */
  others: readonly ChosenColour[]
  /** Charted threads that may be worked in one thread with the original: an explicit choice. */
  mergedWith?: ReadonlySet<string>
  cloth: Lab | null
  /** What the original is used for; null when only the colour is asked about. */
  need: { strandTenths: number; strands: number } | null
  stock: SwapStock | null
  /** The chart itself offers it, in another of its thread lists: then the difference is the designer's own affair. */
  isDesignersOwn?: boolean
}

/**
 * Judge one thread in the place of another, by the rules in their order: behaviour, fibre and thickness, difference, colours kept apart,
 * shading kept in order, contrast with the cloth, enough of one lot. The rules and their figures are common practice, with no published
 * source; the difference is CIEDE2000.
 *
 * @returns every reason with its figures, accepted when none rejects.
 */
export function judgeSwap(question: SwapQuestion): SwapVerdict {
  const { original, candidate, need } = question
  const thickness = judgeThickness(original.line, candidate.line, need?.strands ?? null)
  const needStrandTenths = need ? Math.ceil(need.strandTenths * thickness.share) : 0
  const deltaE = original.lab && candidate.lab ? deltaE00(original.lab, candidate.lab) : null
  const findings = [
    judgeBehaviour(original.line.dyeing, candidate.line.dyeing),
    judgeFibre(original.line.fibre, candidate.line.fibre),
    ...thickness.findings,
    judgeDifference(question, deltaE),
    ...judgeApart(question),
    ...judgeOrder(question),
    ...judgeContrast(question),
    ...(need && question.stock ? [judgeLength(needStrandTenths, question.stock, candidate.line)] : []),
  ]
  return {
    threadId: candidate.threadId,
    isAccepted: findings.every(({ weight }) => weight !== 'rejects'),
    deltaE,
    needStrandTenths,
    findings,
  }
}

function judgeBehaviour(from: Dyeing, to: Dyeing): SwapFinding {
  const rule = 'behaviour'
  if (from === to) return { rule, kind: 'same-dyeing', weight: 'passes', from, to }
  const kind = to === 'solid' ? 'loses-mottling' : from === 'solid' ? 'brings-mottling' : 'other-mottling'
  return { rule, kind, weight: 'flagged', from, to }
}

function judgeFibre(from: string | null, to: string | null): SwapFinding {
  const rule = 'fibre'
  if (from === null || to === null) return { rule, kind: 'fibre-not-known', weight: 'flagged', from, to }
  const isSame = textKey(from) === textKey(to)
  return { rule, kind: isSame ? 'same-fibre' : 'other-fibre', weight: isSame ? 'passes' : 'flagged', from, to }
}

/**
 * How many strands take the place of those charted: by the weight of a length where both lines were weighed, else by how many strands
 * a line parts into, which tells nothing sure of their thickness.
 */
function judgeThickness(from: SwapLine, to: SwapLine, charted: number | null): { findings: SwapFinding[]; share: number } {
  const rule = 'fibre'
  const none = { findings: [], share: 1 }
  const weighed = (line: SwapLine) => (line.putUpMilligrams ? line.putUpMilligrams / line.putUpStrandTenths : null)
  const [fromWeight, toWeight] = [weighed(from), weighed(to)]
  const isKnown = fromWeight !== null && toWeight !== null
  const isThicknessUnsure = !isKnown && from.strands !== to.strands
  const unsure: SwapFinding[] = isThicknessUnsure
    ? [{ rule, kind: 'thickness-not-known', weight: 'flagged', fromStrands: from.strands, toStrands: to.strands }]
    : []
  if (charted === null) return { findings: unsure, share: 1 }
  const wanted = isKnown ? Math.max(1, Math.round((charted * fromWeight) / toWeight)) : charted
  const strands = Math.min(wanted, to.strands)
  if (strands === charted) return { ...none, findings: unsure }
  const by = isKnown && strands === wanted ? 'weight' : 'parting'
  return {
    findings: [...unsure, { rule, kind: 'other-strands', weight: 'flagged', chartedStrands: charted, strands, by }],
    share: strands / charted,
  }
}

function judgeDifference({ original, isDesignersOwn }: SwapQuestion, deltaE: number | null): SwapFinding {
  const rule = 'difference'
  if (isDesignersOwn) return { rule, kind: 'designers-own', weight: 'passes', deltaE }
  if (deltaE === null)
    return { rule, kind: 'colour-not-known', weight: 'rejects', of: original.lab === null ? 'original' : 'candidate' }
  const kind = gradeDifference(deltaE)
  const weight = kind === 'design-change' ? 'rejects' : kind === 'usable' ? 'flagged' : 'passes'
  return { rule, kind, weight, deltaE }
}

function judgeApart({ original, candidate, others, mergedWith }: SwapQuestion): SwapFinding[] {
  const rule = 'apart'
  const findings: SwapFinding[] = []
  let nearest: Apart | null = null
  let notKnown = 0
  let isKept = true
  for (const other of others) {
    const { chartedThreadId, chosenThreadId } = other
    const isMerged = mergedWith?.has(chartedThreadId) ?? false
    if (chosenThreadId === candidate.threadId) {
      findings.push({
        rule,
        kind: isMerged ? 'merged' : 'shared-thread',
        weight: isMerged ? 'flagged' : 'rejects',
        chartedThreadId,
        chosenThreadId,
      })
      isKept &&= isMerged
      continue
    }
    if (isMerged) continue
    const apart = apartOf(original.lab, candidate.lab, other)
    if (apart === null) {
      notKnown++
    } else if (apart.deltaE < apart.least) {
      findings.push({ rule, kind: 'too-near', weight: 'rejects', ...apart })
      isKept = false
    } else if (nearest === null || apart.deltaE - apart.least < nearest.deltaE - nearest.least) {
      nearest = apart
    }
  }
  if (isKept && (nearest !== null || notKnown === 0)) findings.push({ rule, kind: 'kept-apart', weight: 'passes', nearest })
  if (notKnown > 0) findings.push({ rule, kind: 'others-not-known', weight: 'flagged', count: notKnown })
  return findings
}

function apartOf(charted: Lab | null, chosen: Lab | null, other: ChosenColour): Apart | null {
  if (!charted || !chosen || !other.chartedLab || !other.chosenLab) return null
  const chartedDeltaE = deltaE00(charted, other.chartedLab)
  return {
    chartedThreadId: other.chartedThreadId,
    chosenThreadId: other.chosenThreadId,
    deltaE: deltaE00(chosen, other.chosenLab),
    chartedDeltaE,
    least: leastDistance(chartedDeltaE),
  }
}

function judgeOrder({ original, candidate, others, mergedWith }: SwapQuestion): SwapFinding[] {
  const rule = 'order'
  const findings: SwapFinding[] = []
  let pairs = 0
  if (!original.lab || !candidate.lab) return []
  for (const { chartedThreadId, chartedLab, chosenThreadId, chosenLab } of others) {
    if (!chartedLab || !chosenLab || mergedWith?.has(chartedThreadId) || chosenThreadId === candidate.threadId) continue
    const chartedStep = shadingStep(original.lab, chartedLab)
    if (chartedStep === null) continue
    pairs++
    const step = candidate.lab.L - chosenLab.L
    if (Math.sign(step) !== Math.sign(chartedStep))
      findings.push({ rule, kind: 'order-turned', weight: 'rejects', chartedThreadId, chosenThreadId, chartedStep, step })
  }
  return findings.length === 0 && pairs > 0 ? [{ rule, kind: 'order-kept', weight: 'passes', pairs }] : findings
}

/** The lightness of `a` less that of `b` where the two make a light–dark step of one shading run; null where they make none. */
export function shadingStep(a: Lab, b: Lab): number | null {
  const step = a.L - b.L
  if (Math.abs(step) < leastOrderStep) return null
  const [chromaA, chromaB] = [Math.hypot(a.a, a.b), Math.hypot(b.a, b.b)]
  if (chromaA < greyChroma && chromaB < greyChroma) return step
  if (chromaA < greyChroma || chromaB < greyChroma) return null
  const turn = Math.abs(hueDegrees(a) - hueDegrees(b))
  return Math.min(turn, 360 - turn) <= runHueDeg ? step : null
}

function judgeContrast({ original, candidate, cloth }: SwapQuestion): SwapFinding[] {
  const rule = 'contrast'
  if (!original.lab || !candidate.lab) return []
  if (!cloth) return [{ rule, kind: 'cloth-not-known', weight: 'flagged' }]
  const originalGap = Math.abs(original.lab.L - cloth.L)
  const gap = Math.abs(candidate.lab.L - cloth.L)
  const isToneOnTone = originalGap < leastContrast
  const least = isToneOnTone ? toneOnToneShare * originalGap : leastContrast
  const shows = gap >= least
  return [
    { rule, kind: shows ? 'shows' : 'too-faint', weight: shows ? 'passes' : 'rejects', gap, least, originalGap, isToneOnTone },
  ]
}

/** The same measure as a line's own status in cover: one lot, or several where lots do not matter, or too little. */
function judgeLength(need: number, stock: SwapStock, line: SwapLine): SwapFinding {
  const { freeStrandTenths: free, bestLotStrandTenths: bestLot, isSomeHeld } = stock
  const figures = { rule: 'length' as const, need, free, bestLot, isSomeHeld }
  if (bestLot >= need) return { ...figures, kind: 'one-lot', weight: 'passes' }
  if (free < need) return { ...figures, kind: 'too-little', weight: 'rejects' }
  return line.lotsMatter
    ? { ...figures, kind: 'lots-too-small', weight: 'rejects' }
    : { ...figures, kind: 'mixed-lots', weight: 'flagged' }
}

/**
 * Whether two swaps may stand side by side: their own pair's part of the rules `apart` and `order`, judged as `judgeSwap` does with one
 * of them chosen. A colour that is not swapped stands as its own charted thread.
 */
export function areCompatible(
  a: { charted: SwapThread; chosen: Pick<SwapThread, 'threadId' | 'lab'> },
  b: { charted: SwapThread; chosen: Pick<SwapThread, 'threadId' | 'lab'> },
): boolean {
  if (a.chosen.threadId === b.chosen.threadId) return false
  if (!a.charted.lab || !b.charted.lab || !a.chosen.lab || !b.chosen.lab) return true
  if (deltaE00(a.chosen.lab, b.chosen.lab) < leastDistance(deltaE00(a.charted.lab, b.charted.lab))) return false
  const step = shadingStep(a.charted.lab, b.charted.lab)
  return step === null || Math.sign(step) === Math.sign(a.chosen.lab.L - b.chosen.lab.L)
}
