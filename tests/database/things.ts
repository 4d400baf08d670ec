import type { ChartInput } from '#lib/db/chart/add-chart'
import type { DesignInput } from '#lib/db/chart/add-design'
import type { Database } from '#lib/db/client'
import { newId } from '#lib/db/new-id'
import type { StartProject } from '#lib/db/project/start-project'
import type { GoodsReceived } from '#lib/db/stock/receive-thread'
import type { LineFacts, ThreadFacts } from '#lib/db/thread/add-thread'

/** An 8 m skein of six strands. */
export const skein = 480_000

/** The shop, as a row of its table. */
export const theShop = (id = newId()) => ({
  id,
  name: 'The Oxmarsh Needle Room',
  nameKey: 'the oxmarsh needle room',
  kind: 'shop',
})

/** One person beside the shop, as a row of its table. */
export const hanneDrewitt = (id = newId()) => ({ id, name: 'Hanne Drewitt', nameKey: 'hanne drewitt' })

/** A place with nothing above it, as a row of its table. */
export const aPlace = (id: string, label: string, kind: string) => ({
  id,
  label,
  labelKey: label.toLowerCase(),
  kind,
  path: `/${id}/`,
})

/** The maker Larkholm, and its id. */
export async function addLarkholm({ prisma }: Database): Promise<string> {
  const maker = { id: newId(), name: 'Larkholm', nameKey: 'larkholm' }
  await prisma.maker.create({ data: maker })
  return maker.id
}

/** A chart with one design of the same title. */
export async function addCharted(
  { prisma }: Database,
  { ownerId, title, chartId = newId(), designId }: { ownerId: string; title: string; chartId?: string; designId: string },
): Promise<void> {
  const named = { title, titleKey: title.toLowerCase() }
  await prisma.chart.create({ data: { id: chartId, ...named, ownerId } })
  await prisma.design.create({ data: { id: designId, chartId, ...named } })
}

/** What a key says of one thread on a line of its own; `statedPutUpTenths` null is a put-up of the thread's own line. */
export type Keyed = { threadId: string; strands: number; statedHundredths: number; statedPutUpTenths?: number | null }

/** A thread list with one key line a thread. */
export async function addKey(
  { prisma }: Database,
  { id, designId, name, keyed }: { id: string; designId: string; name: string; keyed: readonly Keyed[] },
): Promise<void> {
  await prisma.threadList.create({ data: { id, designId, name, nameKey: name.toLowerCase() } })
  for (const [position, thread] of keyed.entries()) {
    const keyLineId = newId()
    await prisma.keyLine.create({ data: { id: keyLineId, threadListId: id, position } })
    await prisma.keyLineThread.create({ data: { id: newId(), keyLineId, position: 0, ...thread } })
  }
}

/** Solid stranded cotton in 8 m skeins of six. */
export const stranded = (change: Partial<LineFacts> = {}): LineFacts => ({
  makerName: 'Larkholm',
  name: 'stranded',
  fibre: 'cotton',
  strands: 6,
  putUpStrandTenths: skein,
  putUpWord: 'skein',
  dyeing: 'solid',
  lotsMatter: false,
  working: 'rows',
  putUpMilligrams: null,
  priceMinor: null,
  ...change,
})

/** A thread of which only its code is known. */
export const aThread = (code: string, change: Partial<ThreadFacts> = {}): ThreadFacts => ({
  code,
  name: null,
  lab: null,
  labCertainty: null,
  family: null,
  isLeaving: false,
  note: null,
  minimumPutUps: null,
  ...change,
})

/** Whole put-ups of one thread, of no lot, with no part. */
export const goods = (
  of: Pick<GoodsReceived, 'threadId' | 'ownerId' | 'wholePutUps' | 'homePlaceId'> & Partial<GoodsReceived>,
): GoodsReceived => ({ lot: null, partStrandTenths: 0, partCertainty: 'none', ...of })

/** A design of which only its title is known. */
export const aDesign = (title: string, change: Partial<DesignInput> = {}): DesignInput => ({
  title,
  size: { kind: 'unknown' },
  advised: null,
  weave: null,
  insistsOnWeave: false,
  clothName: null,
  coverKind: null,
  allowance: null,
  note: null,
  themes: { season: [], subject: [], form: [] },
  ...change,
})

/** One copy of a leaflet, complete, in no place. */
export const aLeaflet = (title: string, ownerId: string): ChartInput & { placeLabel: null } => ({
  title,
  designers: [],
  kind: 'leaflet',
  ownerId,
  copies: 1,
  edition: null,
  partsNeeded: 1,
  partsHeld: 1,
  boughtOn: null,
  priceMinor: null,
  note: null,
  placeLabel: null,
})

/** One kit to stitch, not yet in a bag, without cloth. */
export const aStart = (
  of: Pick<StartProject, 'designId' | 'threadListId' | 'ownerId'> & Partial<StartProject>,
): StartProject => ({
  clothPieceId: null,
  over: null,
  quantity: 1,
  bagLabel: null,
  forWhom: null,
  dueOn: null,
  note: null,
  isWish: false,
  ...of,
})
