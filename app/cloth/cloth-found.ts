import { type ClothChoiceCounts, type ClothFilter, filterCloth } from '#lib/cloth/filter-cloth'
import { clothKindKey } from '#lib/cloth/match-cloth'
import { listCloth } from '#lib/db/cloth/queries'
import { inRuns } from '#lib/listing/in-runs'
import type { Run } from '#lib/listing/runs'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { counted } from '#words/amounts'
import { type ClothQuery, filterOf } from '../_listing/cloth-query'
import type { ClothRow } from './cloth-columns'
import { kindTitle } from './words'

export type ClothFound = {
  /** In the order of the list: pieces of one weave and count together. */
  rows: ClothRow[]
  /** Their headings. */
  runs: Run[]
  filter: ClothFilter
  unread: ReturnType<typeof filterOf>['unread']
  choices: ClothChoiceCounts
  /** How many there are, whatever is chosen. */
  every: number
  /** Where some cloth lies now, by the place's id. */
  placeLabels: Map<string, string>
}

/** The cloth of these owners that the choices find. */
export async function findCloth(query: ClothQuery, ownerIds: readonly string[], unit: LengthUnit): Promise<ClothFound> {
  const pieces = await listCloth(ownerIds)
  const { filter, unread } = filterOf(query, unit)
  const { shown, choices } = filterCloth(pieces, filter)
  const { rows, runs } = inRuns(shown, clothKindKey, (group) => ({
    title: kindTitle(group[0] as (typeof group)[0]),
    note: counted(group.length, 'piece'),
  }))
  return {
    rows: rows.map(({ outSince: _outSince, ...row }) => row),
    ...{ runs, filter, unread, choices, every: pieces.length },
    placeLabels: new Map(pieces.flatMap(({ current }) => (current ? [[current.id, current.label] as const] : []))),
  }
}

/** What is drawn to scale in the list has the scale of the longest in all of it. */
export const longestUmOf = (rows: readonly ClothRow[]): number =>
  rows.reduce((longest, { widthUm, heightUm }) => Math.max(longest, widthUm, heightUm), 1)
