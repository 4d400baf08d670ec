import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'
import type { ChartKind } from './design'

/** A design as it lies in one chart. */
export type HeldDesign = {
  chartId: string
  chartTitle: string
  title: string
  kind: ChartKind
  copies: number
  /** Whether all its parts are here: part of a design doubles nothing. */
  isWhole: boolean
  designerIds: readonly string[]
}

type DoubleChart = {
  chartId: string
  /** How many copies one can do without. */
  spareCopies: number
  /** The other charts its designs are in too, by title, where every one of them is; then one of all these is to be kept. */
  alsoIn: string[]
}

/** The same design: title and designers. One that names no designer is nobody's double. */
const sameDesign = ({ title, designerIds }: HeldDesign): string | null =>
  designerIds.length === 0 ? null : [textKey(title), ...[...designerIds].sort()].join('\n')

/**
 * Charts held more often than once: more copies than one, or every design of theirs in another chart too. Files are left out, for a file is
 * not passed on, and neither a file nor part of a design makes the paper one a double.
 *
 * @returns  in the order the charts came
 */
export function findDoubles(designs: readonly HeldDesign[]): DoubleChart[] {
  const held = designs.filter(({ kind, copies, isWhole }) => kind !== 'file' && copies > 0 && isWhole)
  const inCharts = grouped(held, (design) => sameDesign(design) ?? `${design.chartId}\n${design.title}`)
  const doubles: DoubleChart[] = []
  for (const [chartId, its] of grouped(held, (design) => design.chartId)) {
    const others = its.map((design) =>
      sameDesign(design) === null
        ? []
        : (inCharts.get(sameDesign(design) as string) ?? []).filter((other) => other.chartId !== chartId),
    )
    const isElsewhere = others.every((some) => some.length > 0)
    const copies = its[0]?.copies ?? 0
    const spareCopies = isElsewhere ? copies : copies - 1
    if (spareCopies < 1) continue
    const alsoIn = isElsewhere ? [...new Set(others.flat().map(({ chartTitle }) => chartTitle))].sort() : []
    doubles.push({ chartId, spareCopies, alsoIn })
  }
  return doubles
}
