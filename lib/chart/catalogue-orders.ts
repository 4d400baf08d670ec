export const catalogueOrders = ['bestCovered', 'title', 'designer', 'size', 'newest'] as const
export type CatalogueOrder = (typeof catalogueOrders)[number]

const exact = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

export type SortKeys = { titleKey: string; designerKey: string; stitchCount: number; boughtOn: string; designId: string }

const byTitle = (a: SortKeys, b: SortKeys): number => exact(a.titleKey, b.titleKey) || exact(a.designId, b.designId)

/** Unknown sizes and dates come last; a design without a designer too. */
export const comparisons: Record<Exclude<CatalogueOrder, 'bestCovered'>, (a: SortKeys, b: SortKeys) => number> = {
  title: byTitle,
  designer: (a, b) =>
    Number(a.designerKey === '') - Number(b.designerKey === '') || exact(a.designerKey, b.designerKey) || byTitle(a, b),
  size: (a, b) => (a.stitchCount === b.stitchCount ? byTitle(a, b) : a.stitchCount - b.stitchCount),
  newest: (a, b) => exact(b.boughtOn, a.boughtOn) || byTitle(a, b),
}
