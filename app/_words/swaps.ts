import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { DifferenceGrade, SwapFinding, SwapRule, SwapVerdict } from '#lib/thread/substitution'
import { counted, threadLength } from './amounts'

/** A colour difference as it is shown: "2.57". */
export const differenceFigure = (deltaE: number): string => deltaE.toFixed(2)

export const gradeWords: Record<DifferenceGrade, string> = {
  same: 'the same to most eyes',
  'very-near': 'very near',
  usable: 'usable, look first',
  'design-change': 'a change of the design',
}

/** The difference and what it means: "2.57, usable, look first". */
export const differenceWords = (verdict: Pick<SwapVerdict, 'deltaE' | 'findings'>): string => {
  if (verdict.deltaE === null) return 'colour not on record'
  const grade = verdict.findings.find((finding) => finding.rule === 'difference')
  const words = grade && grade.kind in gradeWords ? `, ${gradeWords[grade.kind as DifferenceGrade]}` : ''
  return `${differenceFigure(verdict.deltaE)}${words}`
}

/** What is worth a line of its own: a usable difference is said above, and that the cloth is not known once for all. */
export const isWorthALine = (finding: SwapFinding, isClothKnown: boolean): boolean =>
  (!(finding.kind in gradeWords) || finding.weight === 'rejects') && (finding.kind !== 'cloth-not-known' || isClothKnown)

export const ruleWords: Record<SwapRule, string> = {
  behaviour: 'Behaviour',
  fibre: 'Fibre and thickness',
  difference: 'Difference',
  apart: 'Kept apart',
  order: 'Light to dark',
  contrast: 'Against the cloth',
  length: 'Length',
}

const one = (figure: number): string => String(Math.round(Math.abs(figure) * 10) / 10)

type Naming = {
  /** A thread by its id, as it is called on the page. */
  nameOf: (threadId: string) => string
  /** Of the candidate's line, for lengths. */
  strands: number
  unit: ThreadLengthUnit
}

/** One reason for or against a swap, in a sentence without its full stop. */
export function describeFinding(finding: SwapFinding, { nameOf, strands, unit }: Naming): string {
  const length = (strandTenths: number) => threadLength(strandTenths, strands, unit)
  switch (finding.kind) {
    case 'same-dyeing':
      return finding.to === 'solid'
        ? 'Solid for solid'
        : `${finding.to} for ${finding.from}`.replace(/^./, (a) => a.toUpperCase())
    case 'loses-mottling':
      return `Solid for ${finding.from}: loses the mottling`
    case 'brings-mottling':
      return `${finding.to} for solid: brings mottling`.replace(/^./, (a) => a.toUpperCase())
    case 'other-mottling':
      return `${finding.to} for ${finding.from}: mottles in another way`.replace(/^./, (a) => a.toUpperCase())
    case 'same-fibre':
      return `The same fibre, ${finding.to}`
    case 'other-fibre':
      return `${finding.to} for ${finding.from}: another sheen and wear`.replace(/^./, (a) => a.toUpperCase())
    case 'fibre-not-known':
      return 'The fibre of one of them is not on record'
    case 'other-strands':
      return finding.by === 'weight'
        ? `Work ${counted(finding.strands, 'strand')} for the charted ${finding.chartedStrands}: by weight that is the same thickness`
        : `Work ${counted(finding.strands, 'strand')} for the charted ${finding.chartedStrands}: it does not part into more`
    case 'thickness-not-known':
      return `It parts into ${counted(finding.toStrands, 'strand')}, the charted into ${finding.fromStrands}: try how thick it lies`
    case 'same':
    case 'very-near':
    case 'usable':
    case 'design-change':
      return `${differenceFigure(finding.deltaE)} from the charted colour: ${gradeWords[finding.kind]}`
    case 'designers-own':
      return finding.deltaE === null
        ? 'The chart’s own, from another of its thread lists'
        : `The chart’s own, from another of its thread lists; ${differenceFigure(finding.deltaE)} from the charted colour`
    case 'colour-not-known':
      return finding.of === 'original' ? 'The charted colour is not on record' : 'Its colour is not on record'
    case 'kept-apart':
      return finding.nearest
        ? `Keeps clear of every other colour; nearest to trouble is ${nameOf(finding.nearest.chosenThreadId)}, ${differenceFigure(finding.nearest.deltaE)} away where ${differenceFigure(finding.nearest.least)} is asked`
        : 'No other colour to keep clear of'
    case 'too-near':
      return `Too near ${nameOf(finding.chosenThreadId)}: ${differenceFigure(finding.deltaE)} apart where ${differenceFigure(finding.least)} is asked`
    case 'shared-thread':
      return `${nameOf(finding.chartedThreadId)} is worked in it already: the two would become one`
    case 'merged':
      return `Worked in one thread with ${nameOf(finding.chartedThreadId)}, as you chose`
    case 'others-not-known':
      return `Not judged against ${counted(finding.count, 'colour')} that ${finding.count === 1 ? 'is' : 'are'} not on record`
    case 'order-kept':
      return 'The shading keeps its order, light to dark'
    case 'order-turned':
      return `Turns the shading: charted ${one(finding.chartedStep)} ${finding.chartedStep > 0 ? 'lighter' : 'darker'} than ${nameOf(finding.chartedThreadId)}, now ${finding.step === 0 ? 'as light' : `${one(finding.step)} ${finding.step > 0 ? 'lighter' : 'darker'}`}`
    case 'shows':
      return finding.isToneOnTone
        ? `Tone on tone as charted: ${one(finding.gap)} in lightness from the cloth, charted ${one(finding.originalGap)}`
        : `Shows on the cloth: ${one(finding.gap)} in lightness from it`
    case 'too-faint':
      return finding.isToneOnTone
        ? `Would be lost on the cloth: ${one(finding.gap)} in lightness from it where ${one(finding.least)} is asked`
        : `Too faint on the cloth: ${one(finding.gap)} in lightness from it where ${one(finding.least)} is asked`
    case 'cloth-not-known':
      return 'Not judged against the cloth: its colour is not on record'
    case 'one-lot':
      return `Enough of one lot: ${length(finding.bestLot)} for ${length(finding.need)}`
    case 'mixed-lots':
      return `Enough, but of mixed lots: ${length(finding.free)} for ${length(finding.need)}, ${length(finding.bestLot)} the most of one`
    case 'too-little':
      return finding.free === 0 && !finding.isSomeHeld
        ? `None is free; ${length(finding.need)} is asked`
        : `Too little: ${length(finding.free)}${finding.isSomeHeld ? ' and some of unknown length' : ''} free where ${length(finding.need)} is asked`
    case 'lots-too-small':
      return `No one lot is enough: ${length(finding.bestLot)} the most of one, ${length(finding.need)} asked`
  }
}

/** What speaks against a candidate: the rules it breaks, else what it crosses over in. */
export function describeAgainst(verdict: SwapVerdict, naming: Naming): string[] {
  const breaks = verdict.findings.filter(({ weight }) => weight === 'rejects')
  const crosses = verdict.findings.filter(
    ({ rule, weight }) => weight === 'flagged' && (rule === 'behaviour' || rule === 'fibre'),
  )
  return (breaks.length > 0 ? breaks : crosses).map((finding) => describeFinding(finding, naming))
}
