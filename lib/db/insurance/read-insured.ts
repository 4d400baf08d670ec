import 'server-only'
import type { Insured } from '#lib/insurance/insured'
import { peopleKinds } from '#lib/place/place'
import { calendarDay } from '#lib/quantity/day'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { type Database, database } from '../client'

type Prisma = Database['prisma']

/** Fewer than the parameters SQLite takes in one statement. */
const idsAtOnce = 900

const words = (parts: readonly (string | null | undefined)[], between = ' '): string => parts.filter(Boolean).join(between)

/** Everything of these owners that an insurer would be asked to replace. Their goods lent to others are theirs still. */
export async function readInsured(ownerIds: readonly string[]): Promise<Insured[]> {
  const { prisma } = database()
  const ofOwners = { ownerId: { in: [...ownerIds] }, goneAt: null }
  const receipts = await countReceipts(prisma, ownerIds)
  const parts = await Promise.all([
    readThreads(prisma, ofOwners),
    readCloth(prisma, ofOwners, receipts),
    readCharts(prisma, ofOwners, receipts),
    readNotions(prisma, ofOwners, receipts),
    readFinishes(prisma, ofOwners, receipts),
  ])
  return parts.flat()
}

type OfOwners = { ownerId: { in: string[] }; goneAt: null }
/** By the id of the thing. */
type Receipts = ReadonlyMap<string, number>

const owned = { owner: { select: { name: true } }, homePlace: { select: { label: true } } } as const

async function countReceipts(prisma: Prisma, ownerIds: readonly string[]): Promise<Receipts> {
  const rows = await prisma.keptFile.findMany({
    where: { role: 'receipt', ownerId: { in: [...ownerIds] }, goneAt: null },
    select: { chartId: true, clothPieceId: true, notionId: true, projectId: true },
  })
  const counts = new Map<string, number>()
  for (const { chartId, clothPieceId, notionId, projectId } of rows) {
    const id = chartId ?? clothPieceId ?? notionId ?? projectId
    if (id !== null) counts.set(id, (counts.get(id) ?? 0) + 1)
  }
  return counts
}

type Recorded = Pick<Insured, 'recordedOn' | 'recordedBy'>
const unrecorded: Recorded = { recordedOn: null, recordedBy: null }

/** The first line of the journal of each thing. */
async function readRecorded(
  prisma: Prisma,
  by: 'batchId' | 'clothPieceId' | 'chartId' | 'notionId',
  ids: readonly string[],
): Promise<Map<string, Recorded>> {
  const recorded = new Map<string, Recorded>()
  for (const some of chunks(ids, idsAtOnce)) {
    // Ids sort by the time they were made.
    const firsts = await prisma.movement.groupBy({ by: [by], _min: { id: true }, where: { [by]: { in: some } } })
    const movements = await prisma.movement.findMany({
      where: { id: { in: firsts.flatMap(({ _min }) => _min.id ?? []) } },
      select: { at: true, who: true, batchId: true, clothPieceId: true, chartId: true, notionId: true },
    })
    for (const movement of movements)
      recorded.set(movement[by] as string, { recordedOn: calendarDay(movement.at), recordedBy: movement.who })
  }
  return recorded
}

async function readThreads(prisma: Prisma, where: OfOwners): Promise<Insured[]> {
  const batches = await prisma.batch.findMany({
    where,
    select: {
      id: true,
      threadId: true,
      ownerId: true,
      putUpStrandTenths: true,
      wholePutUps: true,
      partStrandTenths: true,
      ...owned,
    },
    orderBy: { id: 'asc' },
  })
  const held = batches.filter(({ wholePutUps, partStrandTenths }) => wholePutUps > 0 || partStrandTenths > 0)
  const threads = new Map<string, ThreadRow>()
  for (const some of chunks([...new Set(held.map(({ threadId }) => threadId))], idsAtOnce))
    for (const thread of await listThreads(prisma, some)) threads.set(thread.id, thread)
  const recorded = await readRecorded(
    prisma,
    'batchId',
    held.map(({ id }) => id),
  )
  const things = new Map<string, Insured & { labels: Set<string> }>()
  for (const batch of held) {
    const thread = threads.get(batch.threadId)
    if (!thread) continue
    // One price is for one put-up: of another length it is another thing to buy.
    const key = `thread.${thread.id}.${batch.ownerId}.${batch.putUpStrandTenths}`
    const { line } = thread
    const partTenThousandths = Math.floor((batch.partStrandTenths * 10_000) / batch.putUpStrandTenths)
    const known = things.get(key)
    if (known) {
      known.count += batch.wholePutUps
      known.partTenThousandths += partTenThousandths
      if (batch.homePlace) known.labels.add(batch.homePlace.label)
      continue
    }
    things.set(key, {
      ...{ key, noun: 'thread', id: thread.id, class: line.dyeing === 'solid' ? 'solid' : 'hand-dyed' },
      title: words([line.maker.name, line.name, thread.code, thread.name]),
      description: words([line.putUpWord, line.fibre], ', '),
      ...{ number: thread.code, count: batch.wholePutUps, partTenThousandths },
      // The line's price is for its own put-up; a shorter or longer one costs in proportion.
      priceMinor:
        line.priceMinor === null ? null : Math.round((line.priceMinor * batch.putUpStrandTenths) / line.putUpStrandTenths),
      ...{ pricedPer: 1, ownerName: batch.owner.name, placeLabel: null, boughtOn: null },
      ...(recorded.get(batch.id) ?? unrecorded),
      ...{ photoFile: null, receiptCount: 0, irreplaceable: thread.isLeaving ? 'no-longer-made' : null },
      labels: new Set(batch.homePlace ? [batch.homePlace.label] : []),
    })
  }
  return [...things.values()].map(({ labels, ...thing }) => ({ ...thing, placeLabel: [...labels].join(', ') || null }))
}

const listThreads = (prisma: Prisma, ids: string[]) =>
  prisma.thread.findMany({
    where: { id: { in: ids } },
    select: {
      id: true,
      code: true,
      name: true,
      isLeaving: true,
      line: {
        select: {
          name: true,
          dyeing: true,
          fibre: true,
          putUpWord: true,
          putUpStrandTenths: true,
          priceMinor: true,
          maker: { select: { name: true } },
        },
      },
    },
  })
type ThreadRow = Awaited<ReturnType<typeof listThreads>>[number]

async function readCloth(prisma: Prisma, where: OfOwners, receipts: Receipts): Promise<Insured[]> {
  const pieces = await prisma.clothPiece.findMany({
    where,
    select: { id: true, label: true, makerName: true, name: true, colourName: true, priceMinor: true, photoFile: true, ...owned },
    orderBy: { id: 'asc' },
  })
  const recorded = await readRecorded(
    prisma,
    'clothPieceId',
    pieces.map(({ id }) => id),
  )
  return pieces.map(({ id, owner, homePlace, label, makerName, name, colourName, priceMinor, photoFile }) => ({
    ...{ key: `cloth.${id}`, noun: 'cloth', id, class: 'cloth', title: words([name, colourName], ', ') },
    ...{ description: makerName ?? '', number: label, count: 1, partTenThousandths: 0, priceMinor, pricedPer: 1 },
    ...{ ownerName: owner.name, placeLabel: homePlace?.label ?? null, boughtOn: null },
    ...(recorded.get(id) ?? unrecorded),
    ...{ photoFile, receiptCount: receipts.get(id) ?? 0, irreplaceable: null },
  }))
}

async function readCharts(prisma: Prisma, where: OfOwners, receipts: Receipts): Promise<Insured[]> {
  const charts = await prisma.chart.findMany({
    where: { ...where, copies: { gt: 0 } },
    select: {
      id: true,
      title: true,
      kind: true,
      edition: true,
      copies: true,
      priceMinor: true,
      boughtOn: true,
      isOutOfPrint: true,
      coverFile: true,
      designers: { select: { designer: { select: { name: true } } }, orderBy: { position: 'asc' } },
      ...owned,
    },
    orderBy: { id: 'asc' },
  })
  const recorded = await readRecorded(
    prisma,
    'chartId',
    charts.map(({ id }) => id),
  )
  return charts.map(({ id, title, kind, edition, copies, priceMinor, boughtOn, isOutOfPrint, coverFile, designers, ...of }) => ({
    ...{ key: `chart.${id}`, noun: 'chart', id, class: 'charts', title },
    description: words([designers.map(({ designer }) => designer.name).join(', '), kind, edition], ', '),
    ...{ number: null, count: copies, partTenThousandths: 0, priceMinor, pricedPer: 1 },
    ...{ ownerName: of.owner.name, placeLabel: of.homePlace?.label ?? null, boughtOn },
    ...(recorded.get(id) ?? unrecorded),
    ...{ photoFile: coverFile, receiptCount: receipts.get(id) ?? 0, irreplaceable: isOutOfPrint ? 'out-of-print' : null },
  }))
}

async function readNotions(prisma: Prisma, where: OfOwners, receipts: Receipts): Promise<Insured[]> {
  const notions = await prisma.notion.findMany({
    where: { ...where, count: { gt: 0 } },
    select: {
      id: true,
      kind: true,
      name: true,
      size: true,
      count: true,
      packOf: true,
      priceMinor: true,
      photoFile: true,
      ...owned,
    },
    orderBy: { id: 'asc' },
  })
  const recorded = await readRecorded(
    prisma,
    'notionId',
    notions.map(({ id }) => id),
  )
  return notions.map(({ id, kind, name, size, count, packOf, priceMinor, photoFile, owner, homePlace }) => ({
    ...{ key: `notion.${id}`, noun: 'notion', id, class: 'notions', title: words([name, size], ', '), description: kind },
    ...{ number: null, count, partTenThousandths: 0, priceMinor, pricedPer: packOf ?? 1 },
    ...{ ownerName: owner.name, placeLabel: homePlace?.label ?? null, boughtOn: null },
    ...(recorded.get(id) ?? unrecorded),
    ...{ photoFile, receiptCount: receipts.get(id) ?? 0, irreplaceable: null },
  }))
}

/** Finished pieces that are not with somebody for good, each at what was agreed for its finishing. */
async function readFinishes(prisma: Prisma, where: OfOwners, receipts: Receipts): Promise<Insured[]> {
  const projects = await prisma.project.findMany({
    // A batch of kits is sold, not kept.
    where: {
      ...where,
      status: 'finished',
      quantity: 1,
      OR: [{ placeId: null }, { place: { kind: { notIn: [...peopleKinds] } } }],
    },
    select: {
      id: true,
      finishing: true,
      finishedOn: true,
      photoFile: true,
      owner: { select: { name: true } },
      place: { select: { label: true } },
      design: { select: { title: true } },
      loans: { select: { priceMinor: true }, where: { kind: 'send' } },
    },
    orderBy: { id: 'asc' },
  })
  return projects.map(({ id, finishing, finishedOn, photoFile, owner, place, design, loans }) => {
    const paid = loans.flatMap(({ priceMinor }) => priceMinor ?? [])
    return {
      ...{ key: `project.${id}`, noun: 'project', id, class: 'finished', title: design.title, description: finishing ?? '' },
      ...{ number: null, count: 1, partTenThousandths: 0, pricedPer: 1 },
      priceMinor: paid.length === 0 ? null : paid.reduce((sum, one) => sum + one, 0),
      ...{ ownerName: owner.name, placeLabel: place?.label ?? null, boughtOn: null },
      ...{ recordedOn: finishedOn, recordedBy: null, photoFile, receiptCount: receipts.get(id) ?? 0 },
      irreplaceable: 'own-work',
    }
  })
}
