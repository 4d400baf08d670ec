import type { Lab } from '#lib/colour/lab'
import type { Count } from '#lib/quantity/count'
import type { StitchTally } from '#lib/thread/stitches'

// What the sheets of a collection have rows of: names instead of ids, for people and for Bring in. The archive's own tables have the rest.

export type PlaceRow = {
  label: string
  kind: string
  inside: string | null
  name: string | null
  walkOrder: number | null
  capacity: number | null
  note: string | null
}

/** A batch, or a thread of which there is none. */
export type ThreadRow = {
  owner: string
  maker: string
  line: string
  code: string
  name: string | null
  fibre: string | null
  strands: number
  /** As sold, in tenths of a millimetre. */
  putUpTenths: number
  putUpWord: string
  dyeing: string
  lotsMatter: boolean
  lot: string | null
  wholePutUps: number
  part: { kind: 'none' } | { kind: 'some' } | { kind: 'measured' | 'label' | 'guess'; tenths: number }
  place: string | null
  nowAt: string | null
  lab: Lab | null
  minimum: number | null
  /** Threads it may be used for, as maker, line and code. */
  standsInFor: { maker: string; line: string; code: string }[]
  note: string | null
}

export type ClothRow = {
  owner: string
  label: string | null
  maker: string | null
  name: string
  weave: string
  ends: Count
  picks: Count
  countCertainty: string
  colour: string | null
  dyeing: string | null
  widthUm: number
  heightUm: number
  isSquared: boolean
  isTurnable: boolean
  oneWayBecause: string | null
  /** unknown, new, washed, never */
  washState: string
  place: string | null
  nowAt: string | null
  lab: Lab | null
  priceMinor: number | null
  note: string | null
}

/** One design of a chart. */
export type ChartRow = {
  chart: string
  design: string
  designers: string[]
  kind: string
  owner: string
  place: string | null
  nowAt: string | null
  copies: number
  size: { stitches: [number, number] } | { um: [number, number] } | null
  advised: { count: Count; over: number } | null
  cloth: string | null
  weave: string | null
  insists: boolean
  seasons: string[]
  subjects: string[]
  forms: string[]
  cover: string | null
  /** A profile's name, or a factor in hundredths. */
  allowance: string | number | null
  edition: string | null
  partsHeld: number
  partsNeeded: number
  boughtOn: string | null
  priceMinor: number | null
  note: string | null
}

/** One line of a key; a blend has several threads. */
export type KeyRow = {
  chart: string
  design: string
  designers: string[]
  list: string
  symbol: string | null
  threads: {
    maker: string
    line: string
    code: string
    name: string | null
    strands: number
    statedHundredths: number | null
    putUpTenths: number | null
  }[]
  tally: StitchTally
}

export type NotionRow = {
  owner: string
  kind: string
  name: string
  size: string | null
  count: number
  minimum: number | null
  packOf: number | null
  place: string | null
  nowAt: string | null
  priceMinor: number | null
  note: string | null
}

export type ProjectRow = {
  design: string
  chart: string
  designers: string[]
  list: string | null
  owner: string
  cloth: string | null
  status: string
  /** All on record, the spares among them. */
  quantity: number
  spares: number
  place: string | null
  forWhom: string | null
  startedOn: string | null
  finishedOn: string | null
  dueOn: string | null
  hoursTenths: number
  stitchesDone: number
  finishing: string | null
  note: string | null
}

export type SheetRows = {
  places: PlaceRow
  threads: ThreadRow
  cloth: ClothRow
  charts: ChartRow
  lists: KeyRow
  notions: NotionRow
  projects: ProjectRow
}
export type SheetNoun = keyof SheetRows
