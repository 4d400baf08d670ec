import type { z } from 'zod'
import type { ClothContrast } from '#lib/cloth/contrast'
import type { Distortion } from '#lib/cloth/distortion'
import type { PieceFit } from '#lib/cloth/fit'
import type { FrameSize } from '#lib/cloth/frame-opening'
import type { SizedOn } from '#lib/coverage/design-cloth'
import type { Answers } from '#lib/db/answers/answers'
import { formatCount } from '#lib/quantity/count'
import { threadRef } from './describe-design'
import { describeDistortion, describeFit } from './describe-fit'
import type { contrastSchema, frameSchema } from './design-cloth'
import { describeSize, toNanometre } from './quantities'

export const fitOrNull = (fit: PieceFit | null) => fit && describeFit(fit)
export const distortionOrNull = (distortion: Distortion | null) => distortion && describeDistortion(distortion)

export const describeSizedOn = ({ ends, picks, over, isTurned }: SizedOn) => ({
  ...{ ends, picks, over, isTurned },
  countText: formatCount(ends, picks),
})

export const describeFrame = (
  finished: { widthUm: number; heightUm: number },
  { opening, board, cut }: FrameSize,
): z.input<typeof frameSchema> => ({
  finished: describeSize(finished),
  opening: describeSize(opening),
  board: describeSize(board),
  exactCut: describeSize({ widthUm: cut.exactWidthUm, heightUm: cut.exactHeightUm }),
  cut: describeSize(cut),
})

export function describeContrast(answers: Answers, contrast: ClothContrast): z.input<typeof contrastSchema> {
  if (contrast.kind === 'cloth-not-known') return { isClothKnown: false, least: null, faint: [], notJudged: [] }
  return {
    isClothKnown: true,
    least: contrast.least,
    faint: contrast.faint.map(({ threadId, gap }) => ({ thread: threadRef(answers, threadId), gap: toNanometre(gap) })),
    notJudged: contrast.notKnownIds.map((threadId) => threadRef(answers, threadId)),
  }
}
