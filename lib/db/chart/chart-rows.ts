import 'server-only'
import type { ChartKind } from '#lib/chart/design'
import type { Prisma } from '../generated/sqlite/client'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'

/** What is on record of a chart itself, whatever is in it. */
export type ChartFacts = {
  id: string
  title: string
  kind: ChartKind
  owner: { id: string; name: string }
  copies: number
  edition: string | null
  partsNeeded: number
  partsHeld: number
  home: PlaceTag | null
  /** Where it is now: its home, when nothing else is on record. */
  current: PlaceTag | null
  outSince: Date | null
  boughtOn: string | null
  priceMinor: number | null
  note: string | null
  version: number
  designers: { id: string; name: string }[]
}

export const chartColumns = {
  id: true,
  title: true,
  kind: true,
  copies: true,
  edition: true,
  partsNeeded: true,
  partsHeld: true,
  outSince: true,
  boughtOn: true,
  priceMinor: true,
  note: true,
  version: true,
  owner: { select: { id: true, name: true } },
  homePlace: placeTagColumns,
  currentPlace: placeTagColumns,
  designers: { orderBy: { position: 'asc' }, select: { designer: { select: { id: true, name: true } } } },
} as const satisfies Prisma.ChartSelect

export function toChartFacts(row: Prisma.ChartGetPayload<{ select: typeof chartColumns }>): ChartFacts {
  const { id, title, owner, copies, edition, partsNeeded, partsHeld, outSince, boughtOn, priceMinor, note, version } = row
  return {
    ...{ id, title, owner, copies, edition, partsNeeded, partsHeld, outSince, boughtOn, priceMinor, note, version },
    kind: row.kind as ChartKind,
    home: row.homePlace as PlaceTag | null,
    current: (row.currentPlace ?? row.homePlace) as PlaceTag | null,
    designers: row.designers.map(({ designer }) => designer),
  }
}
