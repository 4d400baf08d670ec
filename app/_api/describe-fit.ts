import type { z } from 'zod'
import type { Distortion } from '#lib/cloth/distortion'
import type { CutSize, FinishedSize } from '#lib/cloth/finished-size'
import type { PieceFit } from '#lib/cloth/fit'
import type { Margins } from '#lib/cloth/margins'
import type { Motifs } from '#lib/cloth/motifs'
import { formatClothLength } from '#lib/quantity/cloth-length'
import type { distortionSchema, fitSchema } from './cloth-size'
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
        text: `Fits${turned}${fit.isTurned ? ',' : ''} with a margin of ${both(fit.marginUm)} ${sides}${fit.squareFirst ? '; square it first' : ''}.`,
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

/** How a circle comes out, with a sentence. */
export function describeDistortion(distortion: Distortion): z.input<typeof distortionSchema> {
  const { stitches, wideUm, tallUm, way, differenceUm, percent } = distortion
  const by = `${(differenceUm / 25_400).toFixed(2)} in (${(differenceUm / 10_000).toFixed(2)} cm)`
  return {
    ...{ stitches, way },
    wideUm: toNanometre(wideUm),
    tallUm: toNanometre(tallUm),
    differenceUm: toNanometre(differenceUm),
    percent: toNanometre(percent),
    text: `A circle ${stitches} stitches across comes out ${by} ${way === 'taller' ? 'taller than wide' : 'wider than tall'}.`,
  }
}

type CutSteps = {
  stitches: { width: number; height: number }
  over: 1 | 2
  motifs: Motifs
  finished: FinishedSize
  cut: CutSize
  margins: Margins
  uncertaintyUm: number
  shrinkPercent: number
}

/** The steps from stitches to the cut, a line for each dimension. `finished` is counted in threads. */
export function describeCutSteps(input: CutSteps): string[] {
  const { stitches, over, motifs, finished, cut, margins, shrinkPercent } = input
  const mm = (um: number) => `${Number((um / 1_000).toFixed(3))} mm`
  const sides = [
    {
      ...{ name: 'Width', count: stitches.width, many: motifs.across, pitchUm: finished.acrossUm, sizeUm: finished.widthUm },
      ...{ marginsUm: margins.leftUm + margins.rightUm, exactUm: cut.exactWidthUm, cutUm: cut.widthUm },
    },
    {
      ...{ name: 'Height', count: stitches.height, many: motifs.down, pitchUm: finished.upUm, sizeUm: finished.heightUm },
      ...{ marginsUm: margins.topUm + margins.bottomUm, exactUm: cut.exactHeightUm, cutUm: cut.heightUm },
    },
  ]
  return sides.map(({ name, count, many, pitchUm, sizeUm, marginsUm, exactUm, cutUm }) => {
    const stitched =
      many === 1
        ? `${count} stitches × ${mm(pitchUm * over)}`
        : `(${many} × ${count} stitches × ${over} + ${many - 1} × ${motifs.gapThreads}) threads × ${mm(pitchUm)}`
    const unsure = input.uncertaintyUm > 0 ? `; + ${mm(input.uncertaintyUm)}, for the size is estimated` : ''
    const shrunk = shrinkPercent > 0 ? ` ÷ (1 − ${shrinkPercent} %)` : ''
    return `${name}: ${stitched} = ${mm(sizeUm)}${unsure}; + ${mm(marginsUm)} of margins${shrunk} = ${mm(exactUm)}; cut ${both(cutUm)}`
  })
}
