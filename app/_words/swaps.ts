import { plainFigure, withDecimalMark } from '#language/figures'
import { say, sayings } from '#language/say'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { DifferenceGrade, SwapFinding, SwapRule, SwapVerdict } from '#lib/thread/substitution'
import type { Dyeing } from '#lib/thread/thread'
import { threadLength } from './amounts'
import { capital } from './capital'
import { givenName } from './given'

/** A colour difference as it is shown: "2.57". */
export const differenceFigure = (deltaE: number): string => withDecimalMark(deltaE.toFixed(2))

export const gradeWords: Record<DifferenceGrade, string> = sayings({
  same: 'the same to most eyes',
  'very-near': 'very near',
  usable: 'usable, look first',
  'design-change': 'a change of the design',
})

/** The difference and what it means: "2.57, usable, look first". */
export const differenceWords = (verdict: Pick<SwapVerdict, 'deltaE' | 'findings'>): string => {
  if (verdict.deltaE === null) return say('colour not on record')
  const grade = verdict.findings.find((finding) => finding.rule === 'difference')
  const words = grade && grade.kind in gradeWords ? `, ${gradeWords[grade.kind as DifferenceGrade]}` : ''
  return `${differenceFigure(verdict.deltaE)}${words}`
}

/** What is worth a line of its own: a usable difference is said above, and that the cloth is not known once for all. */
export const isWorthALine = (finding: SwapFinding, isClothKnown: boolean): boolean =>
  (!(finding.kind in gradeWords) || finding.weight === 'rejects') && (finding.kind !== 'cloth-not-known' || isClothKnown)

export const ruleWords: Record<SwapRule, string> = sayings({
  behaviour: 'Behaviour',
  fibre: 'Fibre and thickness',
  difference: 'Difference',
  apart: 'Kept apart',
  order: 'Light to dark',
  contrast: 'Against the cloth',
  length: 'Length',
})

const one = (figure: number): string => plainFigure(Math.round(Math.abs(figure) * 10) / 10)

export const dyedWords: Record<Dyeing, string> = sayings({ solid: 'solid', variegated: 'variegated', overdyed: 'overdyed' })

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
        ? say('Solid for solid')
        : capital(say('{to} for {from}', { to: dyedWords[finding.to], from: dyedWords[finding.from] }))
    case 'loses-mottling':
      return say('Solid for {from}: loses the mottling', { from: dyedWords[finding.from] })
    case 'brings-mottling':
      return capital(say('{to} for solid: brings mottling', { to: dyedWords[finding.to] }))
    case 'other-mottling':
      return capital(say('{to} for {from}: mottles in another way', { to: dyedWords[finding.to], from: dyedWords[finding.from] }))
    case 'same-fibre':
      return say('The same fibre, {to}', { to: givenName(finding.to ?? '') })
    case 'other-fibre':
      return capital(
        say('{to} for {from}: another sheen and wear', { to: givenName(finding.to ?? ''), from: givenName(finding.from ?? '') }),
      )
    case 'fibre-not-known':
      return say('The fibre of one of them is not on record')
    case 'other-strands':
      return finding.by === 'weight'
        ? say(
            'Work {strands, plural, one {# strand} other {# strands}} for the charted {chartedStrands}: by weight that is the same thickness',
            { strands: finding.strands, chartedStrands: finding.chartedStrands },
          )
        : say(
            'Work {strands, plural, one {# strand} other {# strands}} for the charted {chartedStrands}: it does not part into more',
            { strands: finding.strands, chartedStrands: finding.chartedStrands },
          )
    case 'thickness-not-known':
      return say(
        'It parts into {toStrands, plural, one {# strand} other {# strands}}, the charted into {fromStrands}: try how thick it lies',
        { toStrands: finding.toStrands, fromStrands: finding.fromStrands },
      )
    case 'same':
    case 'very-near':
    case 'usable':
    case 'design-change':
      return say('{differenceFigure} from the charted colour: {grade}', {
        differenceFigure: differenceFigure(finding.deltaE),
        grade: gradeWords[finding.kind],
      })
    case 'designers-own':
      return finding.deltaE === null
        ? say('The chart’s own, from another of its thread lists')
        : say('The chart’s own, from another of its thread lists; {differenceFigure} from the charted colour', {
            differenceFigure: differenceFigure(finding.deltaE),
          })
    case 'colour-not-known':
      return finding.of === 'original' ? say('The charted colour is not on record') : say('Its colour is not on record')
    case 'kept-apart':
      return finding.nearest
        ? say(
            'Keeps clear of every other colour; nearest to trouble is {nameOf}, {differenceFigure} away where {differenceFigure2} is asked',
            {
              nameOf: nameOf(finding.nearest.chosenThreadId),
              differenceFigure: differenceFigure(finding.nearest.deltaE),
              differenceFigure2: differenceFigure(finding.nearest.least),
            },
          )
        : say('No other colour to keep clear of')
    case 'too-near':
      return say('Too near {nameOf}: {differenceFigure} apart where {differenceFigure2} is asked', {
        nameOf: nameOf(finding.chosenThreadId),
        differenceFigure: differenceFigure(finding.deltaE),
        differenceFigure2: differenceFigure(finding.least),
      })
    case 'shared-thread':
      return say('{nameOf} is worked in it already: the two would become one', { nameOf: nameOf(finding.chartedThreadId) })
    case 'merged':
      return say('Worked in one thread with {nameOf}, as you chose', { nameOf: nameOf(finding.chartedThreadId) })
    case 'others-not-known':
      return say(
        'Not judged against {count, plural, one {# colour} other {# colours}} that {count, plural, one {is} other {are}} not on record',
        { count: finding.count },
      )
    case 'order-kept':
      return say('The shading keeps its order, light to dark')
    case 'order-turned':
      return say(
        'Turns the shading: charted {one} {chartedStepCase, select, yes {lighter} other {darker}} than {nameOf}, now {rest}',
        {
          one: one(finding.chartedStep),
          chartedStepCase: finding.chartedStep > 0,
          nameOf: nameOf(finding.chartedThreadId),
          rest:
            finding.step === 0
              ? say('as light')
              : say('{one} {stepCase, select, yes {lighter} other {darker}}', {
                  one: one(finding.step),
                  stepCase: finding.step > 0,
                }),
        },
      )
    case 'shows':
      return finding.isToneOnTone
        ? say('Tone on tone as charted: {one} in lightness from the cloth, charted {one2}', {
            one: one(finding.gap),
            one2: one(finding.originalGap),
          })
        : say('Shows on the cloth: {one} in lightness from it', { one: one(finding.gap) })
    case 'too-faint':
      return finding.isToneOnTone
        ? say('Would be lost on the cloth: {one} in lightness from it where {one2} is asked', {
            one: one(finding.gap),
            one2: one(finding.least),
          })
        : say('Too faint on the cloth: {one} in lightness from it where {one2} is asked', {
            one: one(finding.gap),
            one2: one(finding.least),
          })
    case 'cloth-not-known':
      return say('Not judged against the cloth: its colour is not on record')
    case 'one-lot':
      return say('Enough of one lot: {length} for {length2}', { length: length(finding.bestLot), length2: length(finding.need) })
    case 'mixed-lots':
      return say('Enough, but of mixed lots: {length} for {length2}, {length3} the most of one', {
        length: length(finding.free),
        length2: length(finding.need),
        length3: length(finding.bestLot),
      })
    case 'too-little':
      return finding.free === 0 && !finding.isSomeHeld
        ? say('None is free; {length} is asked', { length: length(finding.need) })
        : say(
            'Too little: {length}{isSomeHeld, select, yes { and some of unknown length} other {}} free where {length2} is asked',
            { length: length(finding.free), isSomeHeld: finding.isSomeHeld, length2: length(finding.need) },
          )
    case 'lots-too-small':
      return say('No one lot is enough: {length} the most of one, {length2} asked', {
        length: length(finding.bestLot),
        length2: length(finding.need),
      })
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
