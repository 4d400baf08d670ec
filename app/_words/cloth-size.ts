import { numberText, plainFigure, withDecimalMark } from '#language/figures'
import { formatClothLength } from '#language/lengths'
import { say, sayings } from '#language/say'
import type { Distortion } from '#lib/cloth/distortion'
import type { PieceFit } from '#lib/cloth/fit'
import type { Margins } from '#lib/cloth/margins'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { perInch } from '#lib/quantity/count'
import { listed } from './amounts'

const umPerUnit = { in: 25_400, cm: 10_000 } as const

/** A length that is not cut to, to two decimals: "0.39 in". */
export const roughLength = (um: number, unit: LengthUnit): string =>
  `${numberText(Number((um / umPerUnit[unit]).toFixed(2)))} ${unit}`

/** A size that is not cut to: "8 × 8.39 in". */
export const roughSize = (size: { widthUm: number; heightUm: number }, unit: LengthUnit): string =>
  `${roughLength(size.widthUm, unit).replace(/ \w+$/, '')} × ${roughLength(size.heightUm, unit)}`

/** "214 sq in". */
export const areaWords = (um2: number, unit: LengthUnit): string =>
  say('{round, number} sq {unit}', { round: Math.round(um2 / umPerUnit[unit] ** 2), unit })

/** "3 in all round", "2 in at the sides, 3 in above and below", or the four apart. */
export function marginWords({ leftUm, rightUm, topUm, bottomUm }: Margins, unit: LengthUnit): string {
  const length = (um: number) => formatClothLength(um, unit)
  if (leftUm === rightUm && topUm === bottomUm)
    return leftUm === topUm
      ? say('{length} all round', { length: length(leftUm) })
      : say('{length} at the sides, {length2} above and below', { length: length(leftUm), length2: length(topUm) })
  return say('{length} left, {length2} right, {length3} above, {length4} below', {
    length: length(leftUm),
    length2: length(rightUm),
    length3: length(topUm),
    length4: length(bottomUm),
  })
}

export const overWords = (over: 1 | 2): string => say('over {overCase, select, yes {two} other {one}}', { overCase: over === 2 })

/** "A circle 128 stitches across comes out 0.39 in taller than wide". */
export const distortionWords = (distortion: Distortion, unit: LengthUnit): string =>
  say(
    'A circle {stitches, number} stitches across comes out {roughLength} {isTaller, select, yes {taller than wide} other {wider than tall}}',
    {
      stitches: distortion.stitches,
      roughLength: roughLength(distortion.differenceUm, unit),
      isTaller: distortion.way === 'taller',
    },
  )

/** "not square, 4.9 %". */
export const skewWords = ({ percent }: Distortion): string =>
  say('not square, {percent} %', { percent: withDecimalMark(percent.toFixed(1)) })

const aboutSides = sayings({ width: 'left and right', height: 'above and below', both: 'all round' })

/** What stands against a fit, in full: what is lacking, or with which margin it would. Begins small, without a full stop. */
export function fitSaid(fit: PieceFit, unit: LengthUnit): string {
  const length = (um: number) => formatClothLength(um, unit)
  switch (fit.kind) {
    case 'fits':
      return fit.nothingToSpare
        ? say('fits with nothing to spare')
        : say('fits with {roughLength} to spare', {
            roughLength: roughLength(Math.min(fit.spareWidthUm, fit.spareHeightUm), unit),
          })
    case 'smaller-margin':
      if (fit.marginUm === 0)
        return say('does not fit as asked; fits only with no margin {aboutSides}', { aboutSides: aboutSides[fit.dimension] })
      return say('does not fit as asked; fits if the margin {aboutSides} drops to {length}', {
        aboutSides: aboutSides[fit.dimension],
        length: length(fit.marginUm),
      })
    case 'too-small': {
      const lacks = [
        ...(fit.lackWidthUm > 0 ? [say('{roughLength} of width', { roughLength: roughLength(fit.lackWidthUm, unit) })] : []),
        ...(fit.lackHeightUm > 0 ? [say('{roughLength} of height', { roughLength: roughLength(fit.lackHeightUm, unit) })] : []),
      ]
      return say('too small: lacks {lacks} even without a margin', { lacks: listed(lacks) })
    }
  }
}

/** A nominal size: what the usual loss in squaring makes of it. Null where the piece is squared. */
export function squaringWords(after: PieceFit | null, unit: LengthUnit): string | null {
  if (after === null) return null
  const loss = formatClothLength(6_350, unit)
  const turned = after.isTurned ? say(' turned') : ''
  const head = say('Square it first: once it has lost the usual {loss} a side', { loss })
  switch (after.kind) {
    case 'fits':
      return say('{head} it still fits{turned}{hasNothingToSpare, select, yes {, with nothing to spare} other {}}.', {
        head,
        turned,
        hasNothingToSpare: Boolean(after.nothingToSpare),
      })
    case 'smaller-margin':
      if (after.marginUm === 0)
        return say('{head} it fits{turned} only with no margin {aboutSides}.', {
          head,
          turned,
          aboutSides: aboutSides[after.dimension],
        })
      return say('{head} it fits{turned} only if the margin {aboutSides} drops to {margin}.', {
        head,
        turned,
        aboutSides: aboutSides[after.dimension],
        margin: formatClothLength(after.marginUm, unit),
      })
    case 'too-small':
      return say('{head} it is {fitSaid}.', { head, fitSaid: fitSaid(after, unit) })
  }
}

/** "28", "33.87 × 31": threads to the inch, as a sum shows them. */
export const perInchText = (count: Parameters<typeof perInch>[0]): string => plainFigure(Number(perInch(count).toFixed(3)))
