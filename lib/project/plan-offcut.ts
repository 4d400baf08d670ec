import { ok, type Result, refused } from '#lib/result'

type Size = { widthUm: number; heightUm: number }

/** Leftovers smaller than this either way are not worth a name: 5 in. Common practice, no published source. */
const leastOffcutUm = 5 * 25_400

/**
 * What is left of a piece when a corner is cut out of it with two straight cuts, the first right across. Of the two ways to cut, the
 * one that leaves the larger single offcut; when they are equal, the first cut across the width.
 *
 * ```
 *   first across the width      first up the height
 *   ┌─────┬────┐                ┌─────┬────┐
 *   │ cut │  b │                │ cut │    │
 *   ├─────┴────┤                ├─────┤  a │
 *   │     a    │                │  b  │    │
 *   └──────────┘                └─────┴────┘
 * ```
 *
 * @param cut  Along the piece's own sides: its width along the piece's width.
 * @returns    Offcuts at least `leastUm` both ways, the larger first.
 */
export function planOffcuts(
  piece: Size,
  cut: Size,
  leastUm: number = leastOffcutUm,
): Result<Size[], { kind: 'larger-than-piece'; lackWidthUm: number; lackHeightUm: number }> {
  const sideUm = piece.widthUm - cut.widthUm
  const endUm = piece.heightUm - cut.heightUm
  if (sideUm < 0 || endUm < 0) {
    return refused({ kind: 'larger-than-piece', lackWidthUm: Math.max(0, -sideUm), lackHeightUm: Math.max(0, -endUm) })
  }
  const area = ({ widthUm, heightUm }: Size) => widthUm * heightUm
  const byArea = (a: Size, b: Size) => area(b) - area(a)
  const across = [
    { widthUm: piece.widthUm, heightUm: endUm },
    { widthUm: sideUm, heightUm: cut.heightUm },
  ].sort(byArea)
  const up = [
    { widthUm: sideUm, heightUm: piece.heightUm },
    { widthUm: cut.widthUm, heightUm: endUm },
  ].sort(byArea)
  const kept = area(up[0] as Size) > area(across[0] as Size) ? up : across
  return ok(kept.filter(({ widthUm, heightUm }) => widthUm >= leastUm && heightUm >= leastUm))
}
