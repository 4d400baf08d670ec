import { numberText } from '#language/figures'
import { formatClothLength } from '#language/lengths'
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
  `${numberText(Math.round(um2 / umPerUnit[unit] ** 2))} sq ${unit}`

/** "3 in all round", "2 in at the sides, 3 in above and below", or the four apart. */
export function marginWords({ leftUm, rightUm, topUm, bottomUm }: Margins, unit: LengthUnit): string {
  const length = (um: number) => formatClothLength(um, unit)
  if (leftUm === rightUm && topUm === bottomUm)
    return leftUm === topUm ? `${length(leftUm)} all round` : `${length(leftUm)} at the sides, ${length(topUm)} above and below`
  return `${length(leftUm)} left, ${length(rightUm)} right, ${length(topUm)} above, ${length(bottomUm)} below`
}

export const overWords = (over: 1 | 2): string => `over ${over === 2 ? 'two' : 'one'}`

/** "A circle 128 stitches across comes out 0.39 in taller than wide". */
export const distortionWords = (distortion: Distortion, unit: LengthUnit): string =>
  `A circle ${numberText(distortion.stitches)} stitches across comes out ${roughLength(distortion.differenceUm, unit)} ${distortion.way === 'taller' ? 'taller than wide' : 'wider than tall'}`

/** "not square, 4.9 %". */
export const skewWords = ({ percent }: Distortion): string => `not square, ${percent.toFixed(1)} %`

const aboutSides = { width: 'left and right', height: 'above and below', both: 'all round' } as const

/** What stands against a fit, in full: what is lacking, or with which margin it would. Begins small, without a full stop. */
export function fitSaid(fit: PieceFit, unit: LengthUnit): string {
  const length = (um: number) => formatClothLength(um, unit)
  switch (fit.kind) {
    case 'fits':
      return fit.nothingToSpare
        ? 'fits with nothing to spare'
        : `fits with ${roughLength(Math.min(fit.spareWidthUm, fit.spareHeightUm), unit)} to spare`
    case 'smaller-margin':
      if (fit.marginUm === 0) return `does not fit as asked; fits only with no margin ${aboutSides[fit.dimension]}`
      return `does not fit as asked; fits if the margin ${aboutSides[fit.dimension]} drops to ${length(fit.marginUm)}`
    case 'too-small': {
      const lacks = [
        ...(fit.lackWidthUm > 0 ? [`${roughLength(fit.lackWidthUm, unit)} of width`] : []),
        ...(fit.lackHeightUm > 0 ? [`${roughLength(fit.lackHeightUm, unit)} of height`] : []),
      ]
      return `too small: lacks ${listed(lacks)} even without a margin`
    }
  }
}

/** A nominal size: what the usual loss in squaring makes of it. Null where the piece is squared. */
export function squaringWords(after: PieceFit | null, unit: LengthUnit): string | null {
  if (after === null) return null
  const loss = formatClothLength(6_350, unit)
  const turned = after.isTurned ? ' turned' : ''
  const head = `Square it first: once it has lost the usual ${loss} a side`
  switch (after.kind) {
    case 'fits':
      return `${head} it still fits${turned}${after.nothingToSpare ? ', with nothing to spare' : ''}.`
    case 'smaller-margin':
      if (after.marginUm === 0) return `${head} it fits${turned} only with no margin ${aboutSides[after.dimension]}.`
      return `${head} it fits${turned} only if the margin ${aboutSides[after.dimension]} drops to ${formatClothLength(after.marginUm, unit)}.`
    case 'too-small':
      return `${head} it is ${fitSaid(after, unit)}.`
  }
}

/** "28", "33.87 × 31": threads to the inch, as a sum shows them. */
export const perInchText = (count: Parameters<typeof perInch>[0]): string => String(Number(perInch(count).toFixed(3)))
