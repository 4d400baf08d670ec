/** From one end to the other, in micrometres from the piece's upper left corner. */
export type ClothCut = { x1Um: number; y1Um: number; x2Um: number; y2Um: number }

export type CutMark = { side: 'left' | 'right' | 'top' | 'bottom' | 'middle' }

/** At which edge of the piece a cut's number stands: where the cut comes out, right before left and foot before head; else on the cut. */
export function cutMark(cut: ClothCut, piece: { widthUm: number; heightUm: number }): CutMark {
  if (cut.y1Um === cut.y2Um) {
    if (Math.max(cut.x1Um, cut.x2Um) >= piece.widthUm) return { side: 'right' }
    return { side: Math.min(cut.x1Um, cut.x2Um) <= 0 ? 'left' : 'middle' }
  }
  if (Math.max(cut.y1Um, cut.y2Um) >= piece.heightUm) return { side: 'bottom' }
  return { side: Math.min(cut.y1Um, cut.y2Um) <= 0 ? 'top' : 'middle' }
}
