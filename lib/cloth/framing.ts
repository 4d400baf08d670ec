import { roundUpUm, UM_PER_INCH } from '#lib/quantity/cloth-length'

/** What a framed margin is made of on one side, from the stitched edge outwards, in micrometres. */
export type Framing = {
  /** Plain cloth seen between the stitches and the frame. */
  seenUm: number
  /** Covered by the frame's rabbet. */
  rabbetUm: number
  /** Over the edge of the board it is laced on. */
  boardUm: number
  /** Turned back behind the board, for lacing. */
  turnBackUm: number
}

/** Common practice, no published source: 0.75, 0.25, 0.125 and 1.5 in. */
export const defaultFraming: Readonly<Framing> = {
  seenUm: 0.75 * UM_PER_INCH,
  rabbetUm: 0.25 * UM_PER_INCH,
  boardUm: 0.125 * UM_PER_INCH,
  turnBackUm: 1.5 * UM_PER_INCH,
}

/** Cloth on one side beyond what is seen in the frame. */
export const hiddenUm = ({ rabbetUm, boardUm, turnBackUm }: Framing): number => rabbetUm + boardUm + turnBackUm

/** The margin a frame takes on one side: the sum of its parts, and that rounded up. 2.625 in goes up to 3 by half inches. */
export function framingMargin(framing: Framing, roundingUm: number): { sumUm: number; marginUm: number } {
  const sumUm = framing.seenUm + hiddenUm(framing)
  return { sumUm, marginUm: roundUpUm(sumUm, roundingUm) }
}
