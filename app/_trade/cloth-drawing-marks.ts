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

export type RulerMark = { value: number; isNumbered: boolean }

/**
 * The marks of a ruler `length` units long, drawn at `pxPerUnit`: ticks at least 4 px and figures at least 26 px apart, at whole units
 * that go by 1, 2 or 5 times a power of ten. A ruler too short for a second figure has one at its end.
 */
export function listRulerMarks(length: number, pxPerUnit: number): RulerMark[] {
  const steps = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000]
  const tick = steps.find((step) => step * pxPerUnit >= 4) ?? 1000
  const numbered = steps.find((step) => step * pxPerUnit >= 26 && step % tick === 0) ?? 1000
  const marks: RulerMark[] = []
  for (let value = 0; value <= length + 1e-9; value += tick) marks.push({ value, isNumbered: value % numbered === 0 })
  const last = marks.at(-1)
  if (last && last.value < numbered) last.isNumbered = true
  return marks
}
