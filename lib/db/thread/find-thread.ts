import 'server-only'
import type { Lab } from '#lib/colour/lab'
import type { PlaceKind } from '#lib/place/place'
import { openStatuses, type ProjectStatus, underWayStatuses } from '#lib/project/life-cycle'
import { textKey } from '#lib/quantity/text-key'
import { type Batch, compareExact, isOut, knownStrandTenths, type PartCertainty, type StockPromise } from '#lib/stock/batch'
import { compareCodes } from '#lib/thread/code-order'
import type { ThreadLine } from '#lib/thread/thread'
import { database } from '../client'
import { labOf } from '../lab-of'
import type { OrderFacts } from '../order/queries'
import { batchColumns, promiseColumns } from '../stock/apply-stock-change'
import { type Barcode, listBarcodes } from './barcodes'
import { lineColumns, lineOf } from './list-lines'
import { type StockSummary, summariseStock } from './summarise-stock'

type PlaceRef = {
  id: string
  label: string
  kind: PlaceKind /** From the top down. */
  above: { id: string; label: string }[]
}

export type HeldBatch = {
  batch: Batch
  version: number
  outSince: Date | null
  ownerName: string
  home: PlaceRef | null
  current: PlaceRef | null
  promises: (StockPromise & { title: string })[]
}

export type ThreadNamed = {
  id: string
  line: ThreadLine
  code: string
  name: string | null
  lab: Lab | null
}

export type StandInRow = { standInId: string; source: string | null; thread: ThreadNamed }

/** What one owner holds of a thread. Two owners' are never summed. */
export type OwnerStock = { ownerId: string; ownerName: string; stock: StockSummary; holdsAny: boolean }

export type OpenOrder = Pick<
  OrderFacts,
  'id' | 'ownerId' | 'putUpStrandTenths' | 'putUps' | 'receivedPutUps' | 'lot' | 'supplier' | 'orderedOn' | 'expectedOn'
> & { ownerName: string }

export type OwnerRule = {
  ownerId: string
  ownerName: string
  kind: 'minimum' | 'point'
  minimumPutUps: number | null
  demandHundredths: number | null
  leadWeeks: number | null
}

/** An unfinished project that has some of a thread promised, or in its bag. */
export type HoldingProject = {
  id: string
  title: string
  status: ProjectStatus
  bag: { id: string; label: string } | null
  promisedStrandTenths: number
  /** Known lengths lying in its bag, out of their home. */
  inBagStrandTenths: number
  /** Since when the first of them is out. */
  outSince: Date | null
}

export type ThreadPage = ThreadNamed & {
  note: string | null
  minimumPutUps: number | null
  family: string | null
  isLeaving: boolean
  labCertainty: 'measured' | 'label' | 'guess' | null
  version: number
  /** Of the owners asked for, in the order they came in. */
  batches: HeldBatch[]
  /** Every owner that holds some, and those asked for; the owners in the order they came. */
  owners: OwnerStock[]
  /** Of the owners asked for: under way, the nearest to the needle first. */
  projects: HoldingProject[]
  /** Open, of every owner, the oldest first. */
  orders: OpenOrder[]
  rules: OwnerRule[]
  standIns: StandInRow[]
  standsInFor: StandInRow[]
  /** What brought-in lists say answers to it, and what it is said to answer to: opinions, not accepted by themselves. */
  opinions: { sourceName: string; thread: ThreadNamed }[]
  opinionsFor: { sourceName: string; thread: ThreadNamed }[]
  barcodes: Barcode[]
}

/** A thread may be named by many brought-in lists; more than these are told by the lists themselves. */
const opinionsShown = 60

const threadColumns = {
  id: true,
  code: true,
  name: true,
  labL: true,
  labA: true,
  labB: true,
  line: { select: lineColumns },
} as const

type NamedRow = Omit<ThreadNamed, 'line' | 'lab'> & {
  labL: number | null
  labA: number | null
  labB: number | null
  line: Parameters<typeof lineOf>[0]
}

const namedOf = ({ labL, labA, labB, line, ...thread }: NamedRow): ThreadNamed => ({
  ...thread,
  lab: labOf({ labL, labA, labB }),
  line: lineOf(line),
})

const byName = (a: { thread: ThreadNamed }, b: { thread: ThreadNamed }) =>
  compareExact(a.thread.line.makerName, b.thread.line.makerName) ||
  compareExact(a.thread.line.name, b.thread.line.name) ||
  compareCodes(a.thread.code, b.thread.code)

/** One thread by its id, without its stock. */
export async function findThreadNamed(threadId: string): Promise<ThreadNamed | null> {
  const row = await database().prisma.thread.findFirst({ where: { id: threadId, goneAt: null }, select: threadColumns })
  return row && namedOf(row)
}

/** Everything on record of one thread, with the stock of these owners; what designs and the journal say of it is read apart. */
export async function findThread(threadId: string, asked: { ownerIds: readonly string[] }): Promise<ThreadPage | null> {
  const { prisma } = database()
  const row = await prisma.thread.findFirst({
    where: { id: threadId, goneAt: null },
    select: {
      ...threadColumns,
      note: true,
      minimumPutUps: true,
      family: true,
      isLeaving: true,
      labCertainty: true,
      version: true,
    },
  })
  if (!row) return null
  const [batchRows, owners, orders, rules, standIns, standsInFor, opinions, opinionsFor, barcodes] = await Promise.all([
    prisma.batch.findMany({
      where: { threadId, goneAt: null },
      select: {
        ...batchColumns,
        version: true,
        outSince: true,
        promises: {
          select: { ...promiseColumns, project: { select: { design: { select: { title: true } }, status: true } } },
          orderBy: { id: 'asc' },
        },
      },
      orderBy: { id: 'asc' },
    }),
    prisma.owner.findMany({ select: { id: true, name: true }, orderBy: { id: 'asc' } }),
    prisma.threadOrder.findMany({
      where: { threadId, closedAt: null },
      select: {
        id: true,
        ownerId: true,
        putUpStrandTenths: true,
        putUps: true,
        receivedPutUps: true,
        lot: true,
        supplier: true,
        orderedOn: true,
        expectedOn: true,
      },
      orderBy: [{ orderedOn: 'asc' }, { id: 'asc' }],
    }),
    prisma.reorderRule.findMany({
      where: { threadId },
      select: { ownerId: true, kind: true, minimumPutUps: true, demandHundredths: true, leadWeeks: true },
      orderBy: { ownerId: 'asc' },
    }),
    prisma.standIn.findMany({
      where: { threadId, standIn: { goneAt: null } },
      select: { id: true, source: true, standIn: { select: threadColumns } },
    }),
    prisma.standIn.findMany({
      where: { standInThreadId: threadId, thread: { goneAt: null } },
      select: { id: true, source: true, thread: { select: threadColumns } },
    }),
    prisma.conversion.findMany({
      where: { threadId, otherThread: { goneAt: null } },
      select: { sourceName: true, otherThread: { select: threadColumns } },
      orderBy: [{ sourceKey: 'asc' }, { id: 'asc' }],
      take: opinionsShown,
    }),
    prisma.conversion.findMany({
      where: { otherThreadId: threadId, thread: { goneAt: null } },
      select: { sourceName: true, thread: { select: threadColumns } },
      orderBy: [{ sourceKey: 'asc' }, { id: 'asc' }],
      take: opinionsShown,
    }),
    listBarcodes(threadId),
  ])
  const nameOf = new Map(owners.map(({ id, name }) => [id, name]))
  const all = batchRows.map(({ version: _version, outSince: _outSince, promises: _promises, ...batch }) => ({
    ...batch,
    partCertainty: batch.partCertainty as PartCertainty,
  }))
  const promises = batchRows.flatMap((batch) => batch.promises.map(({ project: _project, ...promise }) => promise))
  const asking = batchRows.filter(({ ownerId }) => asked.ownerIds.includes(ownerId))
  const places = await readPlaces(asking.flatMap((batch) => [batch.homePlaceId, batch.currentPlaceId]))
  const batches = asking.map(({ version: batchVersion, outSince, promises: made, ...batch }) => ({
    batch: { ...batch, partCertainty: batch.partCertainty as PartCertainty },
    version: batchVersion,
    outSince,
    ownerName: nameOf.get(batch.ownerId) ?? '',
    home: places.get(batch.homePlaceId ?? '') ?? null,
    current: places.get(batch.currentPlaceId ?? '') ?? null,
    promises: made.map(({ project, ...promise }) => ({ ...promise, title: project.design.title })),
  }))
  const { note, minimumPutUps, family, isLeaving, labCertainty, version, ...thread } = row
  return {
    ...namedOf(thread),
    note,
    minimumPutUps,
    family,
    isLeaving,
    labCertainty: labCertainty as ThreadPage['labCertainty'],
    version,
    batches,
    owners: owners.flatMap(({ id, name }) => {
      const holdsAny = all.some((batch) => batch.ownerId === id && isHeld(batch))
      if (!holdsAny && !asked.ownerIds.includes(id)) return []
      const stock = summariseStock({ threadId, batches: all, promises, ownerIds: [id], minimumPutUps })
      return [{ ownerId: id, ownerName: name, stock, holdsAny }]
    }),
    projects: await listHolding(threadId, batches),
    orders: orders.map((order) => ({ ...order, ownerName: nameOf.get(order.ownerId) ?? '' })),
    rules: rules.map((rule) => ({
      ...rule,
      kind: rule.kind as OwnerRule['kind'],
      ownerName: nameOf.get(rule.ownerId) ?? '',
    })),
    standIns: standIns.map(({ id, source, standIn }) => ({ standInId: id, source, thread: namedOf(standIn) })).sort(byName),
    standsInFor: standsInFor.map(({ id, source, thread }) => ({ standInId: id, source, thread: namedOf(thread) })).sort(byName),
    opinions: opinions.map(({ sourceName, otherThread }) => ({ sourceName, thread: namedOf(otherThread) })),
    opinionsFor: opinionsFor.map(({ sourceName, thread }) => ({ sourceName, thread: namedOf(thread) })),
    barcodes,
  }
}

const isHeld = (batch: Pick<Batch, 'wholePutUps' | 'partCertainty'>): boolean =>
  batch.wholePutUps > 0 || batch.partCertainty !== 'none'

/** Which unfinished projects hold some of these batches: promised to them, or lying in their bag away from home. */
async function listHolding(threadId: string, batches: readonly HeldBatch[]): Promise<HoldingProject[]> {
  const away = batches.filter(({ batch }) => isOut(batch) && isHeld(batch))
  const rows = await database().prisma.project.findMany({
    where: {
      goneAt: null,
      status: { in: [...openStatuses] },
      OR: [
        { promises: { some: { batch: { threadId, goneAt: null } } } },
        { placeId: { in: [...new Set(away.flatMap(({ current }) => current?.id ?? []))] } },
      ],
    },
    select: {
      id: true,
      status: true,
      placeId: true,
      place: { select: { id: true, label: true } },
      design: { select: { title: true } },
    },
  })
  const rank = (status: ProjectStatus) => (underWayStatuses as readonly ProjectStatus[]).indexOf(status)
  return rows
    .map(({ id, status, placeId, place, design }) => {
      const inBag = placeId === null ? [] : away.filter(({ current }) => current?.id === placeId)
      const promised = batches.flatMap(({ promises }) => promises.filter(({ projectId }) => projectId === id))
      return {
        id,
        title: design.title,
        status: status as ProjectStatus,
        bag: place,
        promisedStrandTenths: promised.reduce((sum, { strandTenths }) => sum + strandTenths, 0),
        inBagStrandTenths: inBag.reduce((sum, { batch }) => sum + knownStrandTenths(batch), 0),
        outSince: inBag.reduce<Date | null>(
          (first, { outSince }) => (outSince && (!first || outSince < first) ? outSince : first),
          null,
        ),
        holds: promised.length > 0 || inBag.length > 0,
      }
    })
    .filter(({ holds }) => holds)
    .sort((a, b) => rank(a.status) - rank(b.status) || compareExact(a.title, b.title) || compareExact(a.id, b.id))
    .map(({ holds: _holds, ...project }) => project)
}

/** Places by id, each with those it is in. */
async function readPlaces(ids: (string | null)[]): Promise<Map<string, PlaceRef>> {
  const { prisma } = database()
  const asked = await prisma.place.findMany({
    where: { id: { in: [...new Set(ids.filter((id) => id !== null))] } },
    select: { id: true, label: true, kind: true, path: true },
  })
  const pathIds = (path: string) => path.split('/').filter(Boolean).slice(0, -1)
  const above = await prisma.place.findMany({
    where: { id: { in: [...new Set(asked.flatMap((place) => pathIds(place.path)))] } },
    select: { id: true, label: true },
  })
  const byId = new Map(above.map((place) => [place.id, place]))
  return new Map(
    asked.map(({ path, kind, ...place }) => [
      place.id,
      { ...place, kind: kind as PlaceKind, above: pathIds(path).flatMap((id) => byId.get(id) ?? []) },
    ]),
  )
}

/**
 * The threads a person may mean by a line of text: `0017`, or with maker, line or both before it, `Larkholm stranded 0017`. The code
 * is exact; maker and line are read however they are spelt. A code that was merged into another thread means that one, where no thread has it now.
 */
export async function listThreadsCalled(text: string): Promise<ThreadNamed[]> {
  const words = text.trim().split(/\s+/)
  const beforeByCode = new Map(words.map((_, index) => [words.slice(index).join(' '), textKey(words.slice(0, index).join(' '))]))
  const rows = await database().prisma.thread.findMany({
    where: { code: { in: [...beforeByCode.keys()] }, goneAt: null },
    select: threadColumns,
    orderBy: { id: 'asc' },
  })
  const isMeant = (code: string, makerName: string, lineName: string) => {
    const before = beforeByCode.get(code)
    return before === '' || [makerName, lineName, `${makerName} ${lineName}`].some((name) => textKey(name) === before)
  }
  const called = rows.map(namedOf).filter(({ code, line }) => isMeant(code, line.makerName, line.name))
  if (called.length > 0) return called
  const former = await database().prisma.formerThreadCode.findMany({
    where: { code: { in: [...beforeByCode.keys()] }, thread: { goneAt: null } },
    select: { code: true, makerName: true, lineName: true, thread: { select: threadColumns } },
    orderBy: { id: 'asc' },
  })
  const meant = former.filter(({ code, makerName, lineName }) => isMeant(code, makerName, lineName))
  return [...new Map(meant.map(({ thread }) => [thread.id, namedOf(thread)])).values()]
}
