import type { z } from 'zod'
import type { CutSize } from '#lib/cloth/finished-size'
import type { PieceFit } from '#lib/cloth/fit'
import { formatClothLength } from '#lib/quantity/cloth-length'
import type { fitSchema } from './cloth-size'
import { describeSize, toNanometre } from './quantities'

const both = (um: number): string => `${formatClothLength(um, 'in')} (${formatClothLength(um, 'cm')})`

export const describeCut = (finished: { widthUm: number; heightUm: number }, cut: CutSize) => ({
  finished: describeSize(finished),
  exactCut: describeSize({ widthUm: cut.exactWidthUm, heightUm: cut.exactHeightUm }),
  cut: describeSize(cut),
})

/** A fit as the API gives it, with a sentence. */
export function describeFit(fit: PieceFit): z.input<typeof fitSchema> {
  const way = { isTurned: fit.isTurned, ...describeCut(fit.finished, fit.cut) }
  const turned = fit.isTurned ? ', turned' : ''
  switch (fit.kind) {
    case 'fits': {
      const spare = fit.nothingToSpare
        ? 'with nothing to spare'
        : `with ${both(Math.min(fit.spareWidthUm, fit.spareHeightUm))} to spare`
      const square = fit.squareFirst
        ? `; square it first: ${fit.fitsAfterSquaring ? 'it will still fit' : 'it may not fit after'}`
        : ''
      return {
        kind: 'fits',
        ...way,
        spareWidthUm: toNanometre(fit.spareWidthUm),
        spareHeightUm: toNanometre(fit.spareHeightUm),
        nothingToSpare: fit.nothingToSpare,
        squareFirst: fit.squareFirst,
        fitsAfterSquaring: fit.fitsAfterSquaring,
        text: `Fits${turned}, ${spare}${square}.`,
      }
    }
    case 'smaller-margin': {
      const sides = fit.dimension === 'both' ? 'all round' : fit.dimension === 'width' ? 'left and right' : 'above and below'
      return {
        kind: 'smaller-margin',
        ...way,
        dimension: fit.dimension,
        marginUm: fit.marginUm,
        margins: fit.margins,
        squareFirst: fit.squareFirst,
        text: `Fits${turned} with a margin of ${both(fit.marginUm)} ${sides}${fit.squareFirst ? '; square it first' : ''}.`,
      }
    }
    case 'too-small': {
      const lacks = [
        ...(fit.lackWidthUm > 0 ? [`${both(fit.lackWidthUm)} of width`] : []),
        ...(fit.lackHeightUm > 0 ? [`${both(fit.lackHeightUm)} of height`] : []),
      ]
      return {
        kind: 'too-small',
        ...way,
        lackWidthUm: fit.lackWidthUm,
        lackHeightUm: fit.lackHeightUm,
        text: `Too small${turned}: it lacks ${lacks.join(' and ')} even without margins.`,
      }
    }
  }
}

/** The steps from stitches to the cut, a line for each dimension. */
export function describeCutSteps(input: {
  stitches: { width: number; height: number }
  finished: { widthUm: number; heightUm: number; acrossUm: number; upUm: number }
  cut: CutSize
  margins: { leftUm: number; rightUm: number; topUm: number; bottomUm: number }
  shrinkPercent: number
}): string[] {
  const { stitches, finished, cut, margins, shrinkPercent } = input
  const mm = (um: number) => `${Number((um / 1_000).toFixed(3))} mm`
  const step = (
    name: string,
    count: number,
    pitchUm: number,
    sizeUm: number,
    marginsUm: number,
    exactUm: number,
    cutUm: number,
  ) => {
    const shrunk = shrinkPercent > 0 ? ` ÷ (1 − ${shrinkPercent} %)` : ''
    return `${name}: ${count} stitches × ${mm(pitchUm)} = ${mm(sizeUm)}; + ${mm(marginsUm)} of margins${shrunk} = ${mm(exactUm)}; cut ${both(cutUm)}`
  }
  return [
    step(
      'Width',
      stitches.width,
      finished.acrossUm,
      finished.widthUm,
      margins.leftUm + margins.rightUm,
      cut.exactWidthUm,
      cut.widthUm,
    ),
    step(
      'Height',
      stitches.height,
      finished.upUm,
      finished.heightUm,
      margins.topUm + margins.bottomUm,
      cut.exactHeightUm,
      cut.heightUm,
    ),
  ]
}
