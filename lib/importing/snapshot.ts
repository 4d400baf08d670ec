import type { ChartKind, CoverKind } from '#lib/chart/design'
import type { StatedPutUps } from '#lib/chart/thread-list'
import type { ClothDyeing, OneWayReason, WashState, Weave } from '#lib/cloth/cloth-piece'
import type { Lab } from '#lib/colour/lab'
import type { NotionKind } from '#lib/notion/notion'
import type { PlaceKind } from '#lib/place/place'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { Certainty } from '#lib/quantity/certainty'
import type { Count } from '#lib/quantity/count'
import type { PartCertainty } from '#lib/stock/batch'
import type { AllowanceChoice } from '#lib/thread/allowance'
import type { StitchTally, Working } from '#lib/thread/stitches'
import type { Dyeing } from '#lib/thread/thread'

export type OwnerRow = { id: string; name: string; kind: 'own' | 'shop' | 'person' }

/** `isGone`: removed, but its label is not free for another. Brought in again it comes back. */
export type PlaceRow = {
  id: string
  label: string
  kind: PlaceKind
  parentId: string | null
  name: string | null
  walkOrder: number | null
  capacity: number | null
  note: string | null
  isGone: boolean
}

export type MakerRow = { id: string; name: string }

export type LineRow = {
  id: string
  makerId: string
  name: string
  fibre: string | null
  strands: number
  putUpStrandTenths: number
  putUpWord: string
  dyeing: Dyeing
  lotsMatter: boolean
  working: Working
}

export type ThreadRow = {
  id: string
  lineId: string
  code: string
  name: string | null
  lab: Lab | null
  minimumPutUps: number | null
  note: string | null
  isGone: boolean
}

/** `standInThreadId` may be used for `threadId`. */
export type StandInRow = { id: string; threadId: string; standInThreadId: string }

export type BatchRow = {
  id: string
  threadId: string
  ownerId: string
  lot: string | null
  putUpStrandTenths: number
  wholePutUps: number
  partStrandTenths: number
  partCertainty: PartCertainty
  homePlaceId: string | null
  currentPlaceId: string | null
}

export type ClothRow = {
  id: string
  ownerId: string
  label: string | null
  makerName: string | null
  name: string
  colourName: string | null
  lab: Lab | null
  weave: Weave
  ends: Count
  picks: Count
  widthUm: number
  heightUm: number
  isSquared: boolean
  countCertainty: Certainty
  isCountStale: boolean
  sizeCertainty: Certainty
  isTurnable: boolean
  oneWayBecause: OneWayReason | null
  dyeing: ClothDyeing | null
  washState: WashState
  homePlaceId: string | null
  currentPlaceId: string | null
  note: string | null
  isGone: boolean
}

export type DesignerRow = { id: string; name: string }
export type ThemeAxis = 'season' | 'subject' | 'form'
export type ThemeRow = { id: string; axis: ThemeAxis; name: string }

export type ChartRow = {
  id: string
  title: string
  kind: ChartKind
  ownerId: string
  designerIds: string[]
  copies: number
  edition: string | null
  partsNeeded: number
  partsHeld: number
  homePlaceId: string | null
  currentPlaceId: string | null
  boughtOn: string | null
  priceMinor: number | null
  note: string | null
}

export type DesignRow = {
  id: string
  chartId: string
  title: string
  position: number
  widthStitches: number | null
  heightStitches: number | null
  measuredWidthUm: number | null
  measuredHeightUm: number | null
  advisedCount: Count | null
  advisedOver: 1 | 2 | null
  advisedWeave: Weave | null
  insistsOnWeave: boolean
  advisedCloth: string | null
  coverKind: CoverKind | null
  allowanceProfile: AllowanceChoice['profile'] | null
  allowanceHundredths: number | null
  note: string | null
  themeIds: string[]
}

export type KeyLineRow = {
  symbol: string | null
  tally: StitchTally | null
  threads: { threadId: string; strands: number; stated: StatedPutUps | null }[]
}

export type ListRow = {
  id: string
  designId: string
  name: string
  position: number
  /** Some of its lines were refused. */
  isIncomplete: boolean
  keyLines: KeyLineRow[]
}

export type ProjectRow = {
  id: string
  designId: string
  threadListId: string | null
  ownerId: string
  clothPieceId: string | null
  status: ProjectStatus
  quantity: number
  spares: number
  placeId: string | null
  forWhom: string | null
  startedOn: string | null
  finishedOn: string | null
  dueOn: string | null
  hoursTenths: number
  stitchesDone: number
  finishing: string | null
  note: string | null
}

export type NotionRow = {
  id: string
  ownerId: string
  kind: NotionKind
  name: string
  size: string | null
  count: number
  minimum: number | null
  packOf: number | null
  priceMinor: number | null
  homePlaceId: string | null
  currentPlaceId: string | null
  /** A project has it. */
  isInUse: boolean
  note: string | null
}

/** A label as it was before; split: only part of what had it lives at the place now. */
export type FormerLabelRow = { label: string; placeId: string; isSplit: boolean }

/** What things were called before they were merged with their double, and what they are now. */
export type FormerNames = {
  designers: readonly { name: string; designerId: string }[]
  titles: readonly { title: string; chartId: string }[]
  codes: readonly { makerName: string; lineName: string; code: string; threadId: string }[]
}

/** Every noun a file can add to or change, in an order in which each comes after those it speaks of. */
export const importedNouns = [
  'owner',
  'place',
  'maker',
  'line',
  'thread',
  'standIn',
  'batch',
  'designer',
  'theme',
  'chart',
  'design',
  'list',
  'cloth',
  'project',
  'notion',
] as const
export type ImportedNoun = (typeof importedNouns)[number]

export type RowOf = {
  owner: OwnerRow
  place: PlaceRow
  maker: MakerRow
  line: LineRow
  thread: ThreadRow
  standIn: StandInRow
  batch: BatchRow
  designer: DesignerRow
  theme: ThemeRow
  chart: ChartRow
  design: DesignRow
  list: ListRow
  cloth: ClothRow
  project: ProjectRow
  notion: NotionRow
}

/**
 * What is there: all that the file's rows could name. Batches, charts, projects and notions that are gone are left out; places, threads and cloth
 * that are gone are in, marked.
 *
 * `broughtIn` has the key of each row brought in by an import that stands (not undone), with the id of what the row became.
 * `formerLabel` has the labels that places had before, the latest first, of places that are there.
 */
export type Snapshot = { [N in ImportedNoun]: readonly RowOf[N][] } & {
  broughtIn: ReadonlyMap<string, string>
  formerLabel: readonly FormerLabelRow[]
  /** What was merged with its double is called so no more; left out, nothing was. */
  former?: FormerNames
}

export const emptySnapshot: Snapshot = {
  owner: [],
  place: [],
  maker: [],
  line: [],
  thread: [],
  standIn: [],
  batch: [],
  designer: [],
  theme: [],
  chart: [],
  design: [],
  list: [],
  cloth: [],
  project: [],
  notion: [],
  broughtIn: new Map(),
  formerLabel: [],
}
