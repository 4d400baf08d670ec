import { type CutLayout, nodesOf } from './cut-plan'

/** Where the cloth of a plan goes, in square micrometres: `sheetUm2` is the sum of the other four. */
type CutAreas = {
  sheetUm2: number
  wantedUm2: number
  offcutUm2: number
  /** Too small to keep. */
  wasteUm2: number
  /** Lost along the cuts, where a gap was asked for. */
  alongCutsUm2: number
}

/** The cloth of the pieces that are cut, by what becomes of it. */
export function cutAreas(layouts: readonly CutLayout[]): CutAreas {
  const areas: CutAreas = { sheetUm2: 0, wantedUm2: 0, offcutUm2: 0, wasteUm2: 0, alongCutsUm2: 0 }
  for (const { root } of layouts) {
    areas.sheetUm2 += root.widthUm * root.heightUm
    for (const { kind, widthUm, heightUm } of nodesOf(root)) if (kind !== 'cut') areas[`${kind}Um2`] += widthUm * heightUm
  }
  areas.alongCutsUm2 = areas.sheetUm2 - areas.wantedUm2 - areas.offcutUm2 - areas.wasteUm2
  return areas
}
