import type { ChartKind, CoverKind, DesignSize } from '#lib/chart/design'
import type { ClothDyeing, OneWayReason, WashState, Weave } from '#lib/cloth/cloth-piece'
import type { Lab } from '#lib/colour/lab'
import type { NotionKind } from '#lib/notion/notion'
import type { PlaceKind } from '#lib/place/place'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { Count } from '#lib/quantity/count'
import type { AllowanceChoice } from '#lib/thread/allowance'
import type { StitchTally } from '#lib/thread/stitches'
import type { Dyeing } from '#lib/thread/thread'
import type { ImportKind } from './fields'
import type { RowError, RowWarning } from './row-error'

// A draft is what one row says, read but not yet held against what is there. `null` and an empty list mean that the row says nothing,
// which never takes away what is known.

export type PlaceDraft = {
  label: string
  kind: PlaceKind | null
  inside: string | null
  name: string | null
  walkOrder: number | null
  capacity: number | null
  note: string | null
}

/** A thread as a row names it; the line may be left for the planner to find. */
export type NamedThread = { maker: string; line: string | null; code: string }

/** A part skein as written; a fraction waits for the length of its put-up. Lengths of the thread as sold, in tenths of a millimetre. */
export type DraftPart =
  | { kind: 'none' }
  | { kind: 'length'; tenths: number; certainty: 'measured' | 'label' | 'guess' }
  | { kind: 'fraction'; numerator: number; denominator: number; certainty: 'measured' | 'guess' }
  | { kind: 'some' }

export type ThreadDraft = NamedThread & {
  owner: string
  name: string | null
  fibre: string | null
  strands: number | null
  /** Length of one put-up of the thread as sold, in tenths of a millimetre. */
  putUpTenths: number | null
  putUpWord: string | null
  dyeing: Dyeing | null
  lotsMatter: boolean | null
  lot: string | null
  wholePutUps: number | null
  part: DraftPart | null
  /** The file has no column for amounts: that the thread stands in it says that some is held. */
  isHeldUncounted: boolean
  place: string | null
  nowAt: string | null
  lab: Lab | null
  minimumPutUps: number | null
  standsInFor: NamedThread[]
  note: string | null
}

export type ClothDraft = {
  owner: string
  label: string | null
  maker: string | null
  name: string
  weave: Weave | null
  ends: Count
  picks: Count
  countCertainty: 'measured' | 'label' | 'guess' | null
  colour: string | null
  dyeing: ClothDyeing | null
  widthUm: number
  heightUm: number
  isSquared: boolean | null
  isTurnable: boolean | null
  oneWayBecause: OneWayReason | null
  washState: WashState | null
  place: string | null
  nowAt: string | null
  lab: Lab | null
  note: string | null
}

export type ChartDraft = {
  owner: string
  chart: string
  design: string
  designers: string[]
  kind: ChartKind | null
  place: string | null
  nowAt: string | null
  copies: number | null
  size: DesignSize
  advised: { count: Count; over: 1 | 2 } | null
  weave: Weave | null
  insists: boolean | null
  cloth: string | null
  seasons: string[]
  subjects: string[]
  forms: string[]
  cover: CoverKind | null
  allowance: AllowanceChoice | null
  edition: string | null
  partsHeld: number | null
  partsNeeded: number | null
  boughtOn: string | null
  priceMinor: number | null
  note: string | null
}

export type ListThread = NamedThread & { name: string | null; strands: number; statedHundredths: number | null }

export type ListLineDraft = {
  chart: string
  /** Null when the row names no design: the chart's only one is meant. */
  design: string | null
  designers: string[]
  list: string
  symbol: string | null
  threads: ListThread[]
  /** Null when the row gives no stitch counts. */
  tally: StitchTally | null
  /** Length of the put-up the skeins are stated in, of the thread as sold, in tenths of a millimetre; null follows the line. */
  putUpTenths: number | null
}

export type ProjectDraft = {
  design: string
  chart: string | null
  list: string | null
  owner: string
  cloth: string | null
  status: ProjectStatus | null
  /** Without the spares, which are made beside them. */
  kits: number | null
  spares: number | null
  place: string | null
  forWhom: string | null
  startedOn: string | null
  finishedOn: string | null
  dueOn: string | null
  hoursTenths: number | null
  stitchesDone: number | null
  finishing: string | null
  note: string | null
}

export type NotionDraft = {
  owner: string
  kind: NotionKind | null
  name: string
  size: string | null
  count: number | null
  packOf: number | null
  minimum: number | null
  priceMinor: number | null
  place: string | null
  nowAt: string | null
  note: string | null
}

export type DraftOf = {
  places: PlaceDraft
  threads: ThreadDraft
  cloth: ClothDraft
  charts: ChartDraft
  lists: ListLineDraft
  projects: ProjectDraft
  notions: NotionDraft
}

export type DraftRow<K extends ImportKind> = {
  rowNumber: number
  /** Says what the row says, however it is written; its turn among equal rows is part of it. A row brought in before is known again by it. */
  rowKey: string
  draft: DraftOf[K]
}

/** A file's rows, each read or refused. */
export type CheckedRows<K extends ImportKind = ImportKind> = {
  [Kind in K]: {
    kind: Kind
    rows: DraftRow<Kind>[]
    errors: RowError[]
    warnings: RowWarning[]
    /** The refused rows' cells as far as they say which thread list they belong to. */
    refusedRows: { rowNumber: number; listGroup: string | null }[]
    /** The header each field was read from. */
    columnOf: Record<string, string>
  }
}[K]
