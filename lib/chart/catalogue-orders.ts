import { byText } from '#lib/quantity/text-order'
export const catalogueOrders = ['bestCovered', 'title', 'designer', 'size', 'newest'] as const
export type CatalogueOrder = (typeof catalogueOrders)[number]

export type SortKeys = { titleKey: string; designerKey: string; stitchCount: number; boughtOn: string; designId: string }

const byTitle = (a: SortKeys, b: SortKeys): number => byText(a.titleKey, b.titleKey) || byText(a.designId, b.designId)

/** Unknown sizes and dates come last; a design without a designer too. */
export const comparisons: Record<Exclude<CatalogueOrder, 'bestCovered'>, (a: SortKeys, b: SortKeys) => number> = {
  title: byTitle,
  designer: (a, b) =>
    Number(a.designerKey === '') - Number(b.designerKey === '') || byText(a.designerKey, b.designerKey) || byTitle(a, b),
  size: (a, b) => (a.stitchCount === b.stitchCount ? byTitle(a, b) : a.stitchCount - b.stitchCount),
  newest: (a, b) => byText(b.boughtOn, a.boughtOn) || byTitle(a, b),
}
