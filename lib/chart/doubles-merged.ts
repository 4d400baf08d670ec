import { textKey } from '#lib/quantity/text-key'
import type { ChartKind } from './design'

/** What is on record of a chart itself, as a merge weighs it. */
export type MergingChart = {
  id: string
  title: string
  kind: ChartKind
  copies: number
  edition: string | null
  partsNeeded: number
  partsHeld: number
  homePlaceId: string | null
  currentPlaceId: string | null
  outSince: Date | null
  /** yyyy-mm-dd */
  boughtOn: string | null
  priceMinor: number | null
  isOutOfPrint: boolean
  coverFile: string | null
  coverHash: string | null
  note: string | null
  designerIds: readonly string[]
}

/** What is chosen one by one where two charts say different things. */
export const mergedFields = [
  'title',
  'designers',
  'kind',
  'edition',
  'parts',
  'place',
  'boughtOn',
  'price',
  'outOfPrint',
  'cover',
  'note',
] as const
export type MergedField = (typeof mergedFields)[number]

/** Whose word is kept; both: of designers and notes, which can stand side by side. */
export const takes = ['kept', 'other', 'both'] as const
export type Take = (typeof takes)[number]
export type Choices = Partial<Record<MergedField, Take>>

export const mayTakeBoth = (field: MergedField): boolean => field === 'designers' || field === 'note'

/** What a chart says in a field, to be held against the other; null where it says nothing. */
function saidIn(chart: MergingChart, field: MergedField): string | null {
  switch (field) {
    case 'title':
      return chart.title
    case 'designers':
      return chart.designerIds.length === 0 ? null : [...chart.designerIds].sort().join(' ')
    case 'kind':
      return chart.kind
    case 'edition':
      return chart.edition
    case 'parts':
      return chart.partsNeeded === 1 && chart.partsHeld === 1 ? null : `${chart.partsHeld} of ${chart.partsNeeded}`
    case 'place':
      return chart.homePlaceId ?? chart.currentPlaceId
    case 'boughtOn':
      return chart.boughtOn
    case 'price':
      return chart.priceMinor === null ? null : String(chart.priceMinor)
    case 'outOfPrint':
      return chart.isOutOfPrint ? 'yes' : null
    case 'cover':
      return chart.coverFile
    case 'note':
      return chart.note
  }
}

/** The fields in which both say something, and not the same: what there is to choose. Elsewhere a gap is filled from the other. */
export const differingFields = (kept: MergingChart, other: MergingChart): MergedField[] =>
  mergedFields.filter((field) => {
    const [mine, theirs] = [saidIn(kept, field), saidIn(other, field)]
    return mine !== null && theirs !== null && mine !== theirs
  })

/** What is taken when nobody chose: the kept one's word where it says anything; both notes. */
export function takenUnasked(kept: MergingChart, other: MergingChart, field: MergedField): Take {
  if (saidIn(other, field) === null) return 'kept'
  if (saidIn(kept, field) === null) return 'other'
  return field === 'note' && saidIn(kept, field) !== saidIn(other, field) ? 'both' : 'kept'
}

/** Whether a chart is away from where it lives. */
const isAway = ({ homePlaceId, currentPlaceId }: MergingChart): boolean =>
  homePlaceId !== null && currentPlaceId !== null && currentPlaceId !== homePlaceId

/**
 * The one chart two become: the kept one's row anew. Copies are added up. It lies at home as long as a copy does; those lent stay on their
 * loans. A title given up is to be remembered (`formerTitles`).
 */
export function mergedChart(
  kept: MergingChart,
  other: MergingChart,
  choices: Choices,
): { chart: Omit<MergingChart, 'id'>; givenUpTitle: string | null } {
  const takeOf = (field: MergedField): Take => {
    const chosen = choices[field]
    if (chosen === undefined || (chosen === 'both' && !mayTakeBoth(field))) return takenUnasked(kept, other, field)
    return chosen
  }
  const from = (field: MergedField): MergingChart => (takeOf(field) === 'other' ? other : kept)
  const title = from('title').title
  const designers = takeOf('designers')
  const designerIds =
    designers === 'both' ? [...new Set([...kept.designerIds, ...other.designerIds])] : [...from('designers').designerIds]
  const notes = [kept.note, other.note].filter((note) => note !== null)
  const note = takeOf('note') === 'both' ? [...new Set(notes)].join('\n') || null : from('note').note
  const placed = from('place')
  const beside = placed === kept ? other : kept
  const homePlaceId = placed.homePlaceId ?? beside.homePlaceId
  const isLentOut = isAway(placed) && isAway(beside)
  const chart: Omit<MergingChart, 'id'> = {
    title,
    kind: from('kind').kind,
    copies: kept.copies + other.copies,
    edition: from('edition').edition,
    partsNeeded: from('parts').partsNeeded,
    partsHeld: from('parts').partsHeld,
    homePlaceId,
    currentPlaceId: isLentOut ? placed.currentPlaceId : isAway(placed) ? homePlaceId : (placed.currentPlaceId ?? homePlaceId),
    outSince: isLentOut ? placed.outSince : null,
    boughtOn: from('boughtOn').boughtOn,
    priceMinor: from('price').priceMinor,
    isOutOfPrint: from('outOfPrint').isOutOfPrint,
    coverFile: from('cover').coverFile,
    coverHash: from('cover').coverHash,
    note,
    designerIds,
  }
  const givenUp = title === kept.title ? other.title : kept.title
  return { chart, givenUpTitle: textKey(givenUp) === textKey(title) ? null : givenUp }
}

/** How a design of the other chart comes over: as one with a design of the kept chart, or beside those. */
export type DesignPair = { otherId: string; keptId: string | null }

/**
 * Designs of the same title are one; so are the only designs of two charts, whatever they are called, for the charts are one. Every other
 * design goes over as it is.
 */
export function pairDesigns(
  kept: readonly { id: string; title: string }[],
  other: readonly { id: string; title: string }[],
): DesignPair[] {
  const byTitle = new Map(kept.map(({ id, title }) => [textKey(title), id]))
  const [only] = kept.length === 1 && other.length === 1 ? kept : []
  return other.map(({ id, title }) => ({ otherId: id, keptId: byTitle.get(textKey(title)) ?? only?.id ?? null }))
}

/** A name for a list beside others of the design: its own, else with what tells it apart, else with a number. */
export function freeListName(name: string, mark: string, taken: readonly string[]): string {
  const keys = new Set(taken.map(textKey))
  if (!keys.has(textKey(name))) return name
  const marked = `${name} (${mark})`
  for (let turn = 1; ; turn++) {
    const candidate = turn === 1 ? marked : `${marked} ${turn}`
    if (!keys.has(textKey(candidate))) return candidate
  }
}
