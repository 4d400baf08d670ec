import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { CutLayout } from '#lib/cloth/cut-plan'
import { type CutPart, type CutStep, cutLetters, listOffcuts } from '#lib/cloth/cut-steps'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { counted, listed } from './amounts'
import { capital } from './capital'

/** How what is cut is called on drawings, in steps and lists. */
export type CutNames = {
  letterOf: (wishId: string) => string
  /** The design's title, or the size where nothing else is known of it. */
  nameOf: (wishId: string) => string
}

/** Letters and names for all pieces of a plan. A wish without a title is known by its letter alone. */
export function cutNames(layouts: readonly CutLayout[], titles: ReadonlyMap<string, string>): CutNames {
  const letters = cutLetters(layouts)
  return { letterOf: (wishId) => letters.get(wishId) ?? '', nameOf: (wishId) => titles.get(wishId) ?? '' }
}

/** What a part is for; empty for a plain size, which is named by it and may have been turned. */
export function partTitle(part: Size & { wishId: string }, { nameOf }: CutNames, unit: LengthUnit): string {
  const name = nameOf(part.wishId)
  const sizes = [part, { widthUm: part.heightUm, heightUm: part.widthUm }].map((size) => formatClothSize(size, unit))
  return sizes.includes(name) ? '' : name
}

type StepStyle = CutNames & {
  /** The person's unit; `both` gives the other after it. */
  unit: LengthUnit
  both?: boolean
}

export type StepWords = {
  number: number
  /** What to do: "Cut straight across, 12 in from the foot." */
  act: string
  /** What comes of it, a sentence each. */
  results: string[]
}

export const otherLengthUnit = (unit: LengthUnit): LengthUnit => (unit === 'in' ? 'cm' : 'in')

type Size = { widthUm: number; heightUm: number }

/** "18 × 12 in", or with the other unit: "18 × 12 in (45.72 × 30.48 cm)". */
function sizeWords(size: Size, { unit, both }: Pick<StepStyle, 'unit' | 'both'>): string {
  const words = formatClothSize(size, unit)
  return both ? `${words} (${formatClothSize(size, otherLengthUnit(unit))})` : words
}

/** "12 in", "10, 20 and 30 in". */
function distanceWords(distancesUm: readonly number[], { unit, both }: Pick<StepStyle, 'unit' | 'both'>): string {
  const inUnit = (one: LengthUnit) => `${listed(distancesUm.map((um) => formatClothLength(um, one).replace(/ \w+$/, '')))} ${one}`
  return both ? `${inUnit(unit)} (${inUnit(otherLengthUnit(unit))})` : inUnit(unit)
}

/** The steps of `cutSteps`, as they are told at the table. */
export const stepWords = (steps: readonly CutStep[], style: StepStyle): StepWords[] =>
  steps.map((step) => {
    const { table, atUm, way } = step
    const on = tableWords(step, steps)
    const where = distanceWords(atUm, style)
    const edge = say('{isWhole, select, yes {the} other {its}} {isAcross, select, yes {foot} other {left}}', {
      isWhole: table.from.kind === 'whole',
      isAcross: way === 'across',
    })
    const cut = say(
      '{hasIsTrim, select, yes {trim} other {cut}} straight {way}{atUm, plural, one {,} other { at}} {where} from {edge}',
      { hasIsTrim: Boolean(isTrim(step)), way, atUm: atUm.length, where, edge },
    )
    return {
      number: step.number,
      act: `${capital(on ? `${on}, ${sizeWords(table, style)}: ${cut}` : cut)}.`,
      results: resultsOf(step, style),
    }
  })

/** One cut that takes nothing off but waste. */
const isTrim = ({ atUm, off, rest }: CutStep): boolean =>
  atUm.length === 1 && [...off, ...(rest ? [rest] : [])].some(({ fate }) => fate.kind === 'waste')

/** What lies on the table, by the step it comes from; empty for the whole piece. */
function tableWords({ number, table }: CutStep, steps: readonly CutStep[]): string {
  const { from, count } = table
  if (from.kind === 'whole') return ''
  const way = steps[from.step - 1]?.way ?? 'across'
  if (from.kind === 'rest') {
    if (from.step === number - 1) return count > 1 ? say('what is left of each of the {count}', { count }) : say('what is left')
    const side = way === 'across' ? 'upper' : 'right'
    return count > 1
      ? say('each of the {count} {side} parts of cut {step}', { count, side, step: from.step })
      : say('the {side} part of cut {step}', { side, step: from.step })
  }
  const isAll = from.last - from.first + 1 === from.ofStrips
  if (from.ofStrips === 1) {
    const side = way === 'across' ? 'lower' : 'left'
    return count > 1
      ? say('each of the {count} {side} parts of cut {step}', { count, side, step: from.step })
      : say('the {side} part of cut {step}', { side, step: from.step })
  }
  if (isAll)
    return count === 2
      ? say('both strips of cut {step}', { step: from.step })
      : say('each of the {count} strips of cut {step}', { count, step: from.step })
  const counting = way === 'across' ? say('from the foot') : say('from the left')
  return from.first === from.last
    ? say('strip {first} of cut {step}, counted {counting}{rest}', {
        first: from.first,
        step: from.step,
        counting,
        rest: count > 1 ? say(', of each of the {count}', { count }) : '',
      })
    : say('strips {first} {lastCase, select, yes {and} other {to}} {last} of cut {step}, counted {counting}', {
        first: from.first,
        lastCase: from.last === from.first + 1,
        last: from.last,
        step: from.step,
        counting,
      })
}

function resultsOf(step: CutStep, style: StepStyle): string[] {
  const { off, rest, way, table, number } = step
  const isPair = rest !== null && off.length === 1 && off[0]?.count === 1
  const sides = way === 'across' ? ['lower', 'upper'] : ['left', 'right']
  const each = table.count > 1 ? say('From each: ') : ''
  const name = (part: CutPart, side: string | undefined) =>
    side ? say('the {side} part', { side }) : counted(part.count, part.fate.kind === 'cut' ? 'strip' : 'part')
  const sentences = off.map((part) => partWords(part, name(part, isPair ? sides[0] : undefined), style))
  if (rest)
    sentences.push(
      rest.fate.kind === 'cut' && rest.fate.atStep === number + 1
        ? say('what is left, {size}, is cut next', { size: sizeWords(rest, style) })
        : partWords(rest, isPair ? say('the {sides} part', { sides: sides[1] }) : say('what is left'), style),
    )
  return sentences.map((sentence) => `${each}${each ? sentence : capital(sentence)}.`)
}

function partWords(part: CutPart, name: string, style: StepStyle): string {
  const { count, fate } = part
  const size = sizeWords(part, style)
  const isOne = count === 1
  const sized = isOne ? say('{name}, {size}, is', { name, size }) : say('{name}, each {size}, are', { name, size })
  switch (fate.kind) {
    case 'cut':
      return isOne
        ? say('{name} is {size}, for cut {atStep}', { name, size, atStep: fate.atStep })
        : say('{name} of {size}, for cut {atStep}', { name, size, atStep: fate.atStep })
    case 'wanted': {
      const title = partTitle({ ...part, wishId: fate.wishId }, style, style.unit)
      const names = [style.letterOf(fate.wishId), title, fate.isTurned && 'turned']
      return `${sized} ${names.filter(Boolean).join(', ')}`
    }
    case 'offcut': {
      const numbers = listed(fate.numbers.map(String))
      if (fate.numbers.length === 1) return say('{sized} offcut {numbers}: keep it', { sized, numbers })
      return isOne
        ? say('{sized} an offcut, {numbers} in all: keep them', { sized, numbers })
        : say('{sized} offcuts {numbers}: keep them', { sized, numbers })
    }
    case 'waste':
      return say('{sized} waste', { sized })
  }
}

type Preparation = { isSquared: boolean; size: Size; gapUm: number; unit: LengthUnit; both?: boolean }

/** What comes before the first cut of a piece. */
export function beforeCutting({ isSquared, size, gapUm, ...style }: Preparation): string[] {
  return [
    ...(isSquared
      ? []
      : [
          say(
            'Square the piece first: cut off the selvedge, draw a thread along each side and cut along the gap it leaves. Then measure: if less than {size} is left, write the new size down and make the plan again.',
            { size: sizeWords(size, style) },
          ),
        ]),
    say('Lay the piece with the warp running up and keep it so: foot and left in the steps are as in the drawing.'),
    ...(gapUm > 0
      ? [
          say('Each cut loses {distance} to pinking or tearing. The distances are counted with it.', {
            distance: distanceWords([gapUm], style),
          }),
        ]
      : []),
  ]
}

/** What comes after the last cut. */
export function afterCutting(layout: CutLayout): string[] {
  const offcuts = listOffcuts(layout).length
  return [
    say('Mark which way the warp runs on every part as it comes off, with a stitch at its head.'),
    say('Neaten the edges of what will be stitched.'),
    ...(offcuts > 0
      ? [
          say(
            'Label {offcuts, plural, one {the offcut} other {the # offcuts}}, measure {offcuts, plural, one {it} other {them}}, and write the size down as measured: it goes back into stock so.',
            { offcuts },
          ),
        ]
      : []),
  ]
}

export const shearsCaution = () =>
  say(
    'Measure twice before each cut. Keep the hand that holds the cloth out of the way of the shears, close them when you lay them down, and keep them from children and pets. Where your workroom has a rule of its own, that comes first.',
  )
