import { calculateClothSize } from '#api/cloth-size'
import { describeCut, describeCutSteps, describeFit } from '#api/describe-fit'
import { describeSize } from '#api/quantities'
import { endpoint, serve } from '#api/serve'
import { choosePiece } from '#lib/cloth/choose-piece'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { cutSize, finishedSize } from '#lib/cloth/finished-size'
import { fitPiece } from '#lib/cloth/fit'

const calculate = serve(calculateClothSize, async ({ body }) => {
  const { stitches, cloth, margins, shrinkPercent, roundingUm } = body
  const request = { ...stitches, over: cloth.over, margins, shrinkPercent, roundingUm, uncertaintyUm: 0 }
  const way = (isTurned: boolean) => {
    const finished = finishedSize({ ...request, ...cloth, isTurned })
    return { finished, cut: cutSize({ ...request, finished }) }
  }
  const [upright, turned] = [way(false), way(true)]
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
    arithmetic: describeCutSteps({ stitches, ...upright, margins, shrinkPercent }),
    fits: pieces.map((piece) => ({ id: piece.id, fit: describeFit(fitPiece(request, piece)) })),
    ranked: choice.ranked.map(({ piece }) => piece.id),
    bestPieceId: choice.best?.piece.id ?? null,
    toBuy: choice.best ? null : describeSize(upright.cut),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: calculate })
