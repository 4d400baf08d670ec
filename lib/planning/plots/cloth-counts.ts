import type { ClothPiece, Weave } from '#lib/cloth/cloth-piece'
import { clothKindKey, nominalCountLabel } from '#lib/cloth/match-cloth'
import { meanPerInch } from '#lib/quantity/count'

/** How its counts are known; `stale` once it was washed since its threads were counted. */
export const countHows = ['measured', 'label', 'guess', 'stale'] as const
export type CountHow = (typeof countHows)[number]

export type CountedPiece = Pick<ClothPiece, 'weave' | 'ends' | 'picks' | 'widthUm' | 'heightUm' | 'isCountStale'> & {
  countCertainty: 'measured' | 'label' | 'guess'
}

export type ClothOfCount = {
  weave: Weave
  /** Threads or blocks to the inch, as one speaks of it: "28", "34 × 31". */
  label: string
  pieces: number
  areaUm2: number
  /** Of it, by how the counts are known. */
  areaUm2By: Record<CountHow, number>
}

/** Cloth held by count, block cloth first, the coarsest first. */
export function clothByCount(pieces: readonly CountedPiece[]): ClothOfCount[] {
  const found = new Map<string, { perInch: number; cloth: ClothOfCount }>()
  for (const piece of pieces) {
    const { weave, ends, picks, widthUm, heightUm, isCountStale, countCertainty } = piece
    const key = clothKindKey(piece)
    const kind = found.get(key) ?? {
      perInch: meanPerInch(ends, picks),
      cloth: {
        ...{ weave, label: nominalCountLabel(ends, picks), pieces: 0, areaUm2: 0 },
        areaUm2By: { measured: 0, label: 0, guess: 0, stale: 0 },
      },
    }
    found.set(key, kind)
    const areaUm2 = widthUm * heightUm
    kind.cloth.pieces++
    kind.cloth.areaUm2 += areaUm2
    kind.cloth.areaUm2By[isCountStale ? 'stale' : countCertainty] += areaUm2
  }
  return [...found.values()]
    .sort(
      (a, b) =>
        Number(a.cloth.weave === 'single') - Number(b.cloth.weave === 'single') ||
        a.perInch - b.perInch ||
        (a.cloth.label < b.cloth.label ? -1 : 1),
    )
    .map(({ cloth }) => cloth)
}
