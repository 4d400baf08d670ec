import type { Design } from '#lib/chart/design'
import { type StitchSize, stitchSize } from '#lib/chart/design-size'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { type FinishedSize, finishedSize } from '#lib/cloth/finished-size'
import { type FrameSize, frameSizeOf, type OpeningCount, sizeForOpening } from '#lib/cloth/frame-opening'
import type { Framing } from '#lib/cloth/framing'
import { marginsFor } from '#lib/cloth/margins'
import { oneMotif } from '#lib/cloth/motifs'
import { answerDesignCloth, chosenOver, type DesignClothSettings, type SizedOn } from './design-cloth'

export type FrameChoices = {
  /** An opening one has; null asks only what frame the design takes. */
  opening: { widthUm: number; heightUm: number } | null
  /** Plain cloth to be seen on each side of the stitches. */
  seenUm: number
  over: 1 | 2 | null
  /** A piece to reckon the frame on instead of the best. */
  pieceId: string | null
}

export type FrameSettings = DesignClothSettings & { finishing: string; framing: Framing }

export type DesignFrame = {
  size: StitchSize
  /** What frame it takes on the piece chosen, the best held or the cloth advised; null when there is none of these. */
  own: { piece: ClothPiece | null; on: SizedOn; finished: FinishedSize; frame: FrameSize } | null
  /** What does for the opening; null when none was asked about. */
  counts: OpeningCount[] | null
}

/**
 * What frame a design takes, and which counts and pieces do for an opening one has.
 *
 * @returns null when the design's size is not known
 */
export function answerDesignFrame(
  design: Pick<Design, 'size' | 'advised'>,
  pieces: readonly ClothPiece[],
  choices: FrameChoices,
  settings: FrameSettings,
): DesignFrame | null {
  const size = stitchSize(design)
  const { over, pieceId, opening, seenUm } = choices
  const margins = marginsFor(settings, settings.finishing)
  const cloth = answerDesignCloth(design, pieces, { margins, over, motifs: oneMotif, count: null, pieceId }, settings)
  if (size === null || cloth === null) return null
  const framing: Framing = { ...settings.framing, seenUm }
  const { roundingUm, shrinkPercent } = settings
  const { width, height, uncertaintyUm } = size
  return {
    size,
    own: cloth.sizedOn && frameOn(size, cloth.sizedOn, cloth.shown?.piece ?? null, framing, roundingUm),
    counts:
      opening &&
      sizeForOpening(
        { width, height, uncertaintyUm, opening, leastSeenUm: seenUm, framing, shrinkPercent, roundingUm },
        pieces,
        chosenOver('block', over, design.advised),
      ),
  }
}

function frameOn(
  size: StitchSize,
  on: SizedOn,
  piece: ClothPiece | null,
  framing: Framing,
  roundingUm: number,
): DesignFrame['own'] {
  const finished = finishedSize({ ...size, ...on })
  const { shrinkPercent } = on
  return {
    piece,
    on,
    finished,
    frame: frameSizeOf(finished, framing, { shrinkPercent, roundingUm, uncertaintyUm: size.uncertaintyUm }),
  }
}
