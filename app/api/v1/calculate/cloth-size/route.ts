import { calculateClothSize } from '#api/cloth-size'
import { describeCut, describeCutSteps, describeDistortion, describeFit } from '#api/describe-fit'
import { describeSize } from '#api/quantities'
import { endpoint, serve } from '#api/serve'
import { fitAfterSquaring } from '#lib/cloth/after-squaring'
import { choosePiece } from '#lib/cloth/choose-piece'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { distortionOf } from '#lib/cloth/distortion'
import { cutSize, finishedSize } from '#lib/cloth/finished-size'
import { fitPiece } from '#lib/cloth/fit'
import { requestInThreads } from '#lib/cloth/motifs'
import type { Count } from '#lib/quantity/count'

const calculate = serve(calculateClothSize, async ({ body }) => {
  const { stitches, cloth, margins, motifs, shrinkPercent, roundingUm, uncertaintyUm } = body
  const request = requestInThreads({ ...stitches, uncertaintyUm, motifs, margins, shrinkPercent, roundingUm }, cloth.over)
  const way = (isTurned: boolean) => {
    const finished = finishedSize({ ...request, ends: cloth.ends, picks: cloth.picks, isTurned })
    return { finished, cut: cutSize({ ...request, finished }) }
  }
  const [upright, turned] = [way(false), way(true)]
  const distortionOn = (on: { ends: Count; picks: Count }, isTurned: boolean) => {
    const distortion = distortionOf(stitches, on, cloth.over, isTurned)
    return distortion && describeDistortion(distortion)
  }
  const pieces = body.pieces.map(
    (piece): ClothPiece => ({
      ends: piece.cloth?.ends ?? cloth.ends,
      picks: piece.cloth?.picks ?? cloth.picks,
      id: piece.id,
      widthUm: piece.widthUm,
      heightUm: piece.heightUm,
      isTurnable: piece.isTurnable,
      isSquared: piece.isSquared,
      isOffcut: piece.isOffcut,
      isReserved: false,
      ownerId: '',
      label: null,
      name: '',
      colourName: null,
      lab: null,
      dyeing: null,
      washState: 'unknown',
      isCountStale: false,
      weave: 'single',
      sizeCertainty: 'label',
      homePlaceId: null,
      currentPlaceId: null,
    }),
  )
  const choice = choosePiece({ ...request, buyCount: null }, pieces)
  return {
    margins,
    upright: describeCut(upright.finished, upright.cut),
    turned: describeCut(turned.finished, turned.cut),
    distortion: distortionOn(cloth, false),
    arithmetic: describeCutSteps({
      ...{ stitches, over: cloth.over, motifs, ...upright, margins, shrinkPercent },
      uncertaintyUm: request.uncertaintyUm,
    }),
    fits: pieces.map((piece) => {
      const fit = fitPiece(request, piece)
      const after = fitAfterSquaring(request, piece)
      return {
        id: piece.id,
        fit: describeFit(fit),
        afterSquaring: after && describeFit(after),
        distortion: distortionOn(piece, fit.isTurned),
      }
    }),
    ranked: choice.ranked.map(({ piece }) => piece.id),
    bestPieceId: choice.best?.piece.id ?? null,
    toBuy: choice.best ? null : describeSize(upright.cut),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: calculate })
