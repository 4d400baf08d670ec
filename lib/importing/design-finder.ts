import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'
import { nearTitles } from './near-titles'
import type { PlanningDesk } from './planning-desk'
import type { RowErrorKind } from './row-error'
import type { ChartRow, DesignRow } from './snapshot'

export type NamedDesign = { chart: string | null; design: string | null; designers: readonly string[] }

export type DesignsFound =
  /** One design, or the same one in several copies of its chart. */
  | { designs: DesignRow[] }
  | { field: 'chart' | 'design'; kind: Extract<RowErrorKind, 'unknown-design' | 'which-design'>; raw: string; accepted: string[] }

/** Finds the design a row names by chart, design and designers. */
export class DesignFinder {
  private readonly chartsByTitle: Map<string, ChartRow[]>
  private readonly designsByTitle: Map<string, DesignRow[]>
  private readonly designsOf: Map<string, DesignRow[]>
  private readonly found = new Map<string, DesignsFound>()

  constructor(private readonly desk: PlanningDesk) {
    this.chartsByTitle = grouped(desk.list('chart'), (chart) => textKey(chart.title))
    this.designsByTitle = grouped(desk.list('design'), (design) => textKey(design.title))
    this.designsOf = grouped(desk.list('design'), (design) => design.chartId)
  }

  find(named: NamedDesign): DesignsFound {
    const key = JSON.stringify([named.chart ?? '', named.design ?? '', ...named.designers].map(textKey))
    const known = this.found.get(key)
    if (known) return known
    const found = named.chart === null ? this.byDesign(named.design ?? '', named.designers) : this.byChart(named.chart, named)
    this.found.set(key, found)
    return found
  }

  chartOf(design: DesignRow): ChartRow {
    return this.desk.get('chart', design.chartId)
  }

  private byChart(title: string, { design, designers }: NamedDesign): DesignsFound {
    const titled = this.chartsByTitle.get(textKey(title)) ?? []
    if (titled.length === 0) {
      // What a file calls the chart may be the title of one design in a booklet.
      const byDesign = design === null || textKey(design) === textKey(title) ? this.byDesign(title, designers) : null
      if (byDesign && 'designs' in byDesign) return byDesign
      return { field: 'chart', kind: 'unknown-design', raw: title, accepted: this.near(title, this.desk.list('chart')) }
    }
    const charts = titled.filter((chart) => this.isBy(chart, designers))
    if (charts.length === 0) {
      return { field: 'chart', kind: 'unknown-design', raw: title, accepted: titled.map((chart) => this.describe(chart)) }
    }
    const within = charts.flatMap((chart) => this.designsOf.get(chart.id) ?? [])
    const matching = charts.flatMap((chart) => this.inChart(chart, design))
    if (matching.length > 0) return this.onePublication(matching)
    const titles = [...new Set(within.map((one) => one.title))].sort()
    if (design === null) return { field: 'design', kind: 'which-design', raw: title, accepted: titles }
    const near = nearTitles(design, titles)
    return { field: 'design', kind: 'unknown-design', raw: design, accepted: near.length > 0 ? near : titles.slice(0, 5) }
  }

  private byDesign(title: string, designers: readonly string[]): DesignsFound {
    const titled = (this.designsByTitle.get(textKey(title)) ?? []).filter((design) => this.isBy(this.chartOf(design), designers))
    if (titled.length > 0) return this.onePublication(titled)
    const charts = (this.chartsByTitle.get(textKey(title)) ?? []).filter((chart) => this.isBy(chart, designers))
    const only = charts.flatMap((chart) => this.inChart(chart, null))
    if (only.length > 0) return this.onePublication(only)
    return { field: 'design', kind: 'unknown-design', raw: title, accepted: this.near(title, this.desk.list('design')) }
  }

  /** The chart's design of that title; without a title its only one, or the one that bears the chart's. */
  private inChart(chart: ChartRow, title: string | null): DesignRow[] {
    const designs = this.designsOf.get(chart.id) ?? []
    if (title === null && designs.length === 1) return designs
    return designs.filter((design) => textKey(design.title) === textKey(title ?? chart.title))
  }

  /** Copies of one publication share title and designers; anything else has to be told apart. */
  private onePublication(designs: DesignRow[]): DesignsFound {
    const publications = grouped(designs, (design) => {
      const chart = this.chartOf(design)
      return JSON.stringify([textKey(chart.title), ...chart.designerIds.slice().sort()])
    })
    if (publications.size === 1) return { designs: designs.slice().sort((left, right) => (left.id < right.id ? -1 : 1)) }
    const accepted = [...publications.values()].map(([design]) => this.describe(this.chartOf(design as DesignRow))).sort()
    return { field: 'chart', kind: 'which-design', raw: (designs[0] as DesignRow).title, accepted }
  }

  private isBy(chart: ChartRow, designers: readonly string[]): boolean {
    const names = chart.designerIds.map((id) => textKey(this.desk.get('designer', id).name))
    return designers.every((designer) => names.includes(textKey(designer)))
  }

  private describe(chart: ChartRow): string {
    const names = chart.designerIds.map((id) => this.desk.get('designer', id).name)
    return names.length === 0 ? chart.title : `${chart.title} (${names.join('; ')})`
  }

  private near(title: string, all: { title: string }[]): string[] {
    return nearTitles(
      title,
      all.map((one) => one.title),
    )
  }
}
