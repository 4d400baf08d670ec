import type { Database } from '#lib/db/client'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'
import type { PartCertainty } from '#lib/stock/batch'
import { freeStock } from '#lib/stock/free-stock'

type Prisma = Database['prisma']

/** Statuses of a project that something may be promised to. */
const open = ['planned', 'kitted', 'stitching', 'resting', 'stitched']
const people = ['person', 'framer', 'finisher', 'model stitcher']
/** Kinds of movement by which goods come into the house, leave it, or are found to be other than was thought. */
const beyond = new Set(['receive', 'use', 'correct', 'undo'])

/** Every row that says what there is, where it is and for whom, to be held against itself after a write that was broken off. */
export async function readEverything(prisma: Prisma): Promise<string> {
  const byId = { orderBy: { id: 'asc' } } as const
  const rows = [
    await prisma.revision.findMany(byId),
    await prisma.batch.findMany(byId),
    await prisma.stockPromise.findMany(byId),
    await prisma.clothPiece.findMany(byId),
    await prisma.chart.findMany(byId),
    await prisma.notion.findMany(byId),
    await prisma.place.findMany(byId),
    await prisma.formerLabel.findMany(byId),
    await prisma.project.findMany(byId),
    await prisma.projectSwap.findMany(byId),
    await prisma.loan.findMany(byId),
    await prisma.loanLine.findMany(byId),
    await prisma.walk.findMany(byId),
    await prisma.walkLine.findMany(byId),
    await prisma.missingThing.findMany(byId),
    await prisma.stockCount.findMany(byId),
    await prisma.stockCountLine.findMany(byId),
    await prisma.kitBag.findMany(byId),
    await prisma.kitBagCheck.findMany(byId),
    await prisma.kitLot.findMany(byId),
    await prisma.bulkEdit.findMany(byId),
    await prisma.movement.count(),
    await prisma.change.count(),
  ]
  return JSON.stringify(rows)
}

const lines = <Key, Row>(rows: readonly Row[], keyOf: (row: Row) => Key | null): Map<Key, Row[]> => {
  const groups = new Map<Key, Row[]>()
  for (const row of rows) {
    const key = keyOf(row)
    if (key !== null) groups.set(key, [...(groups.get(key) ?? []), row])
  }
  return groups
}

/**
 * What is wrong with the stock as the database has it, in words; nothing when all is well. Only the last two parts ask the program's own
 * rules; the rest is sums of the journal.
 */
export async function faultsInBooks(prisma: Prisma): Promise<string[]> {
  const faults: string[] = []
  const batches = await prisma.batch.findMany({ orderBy: { id: 'asc' } })
  const cloth = await prisma.clothPiece.findMany({ orderBy: { id: 'asc' } })
  const charts = await prisma.chart.findMany({ orderBy: { id: 'asc' } })
  const notions = await prisma.notion.findMany({ orderBy: { id: 'asc' } })
  const places = await prisma.place.findMany()
  const projects = await prisma.project.findMany()
  const promises = await prisma.stockPromise.findMany({ orderBy: { id: 'asc' } })
  const placeOf = new Map(places.map((place) => [place.id, place]))
  const projectOf = new Map(projects.map((project) => [project.id, project]))

  // The journal: each thing is the sum of its movements, and only coming in, use and correction change what there is of a thread.
  const sums = { wholeDelta: true, partDeltaStrandTenths: true } as const
  const ofBatches = await prisma.movement.groupBy({ by: ['batchId', 'kind'], _sum: sums, where: { batchId: { not: null } } })
  const journal = new Map<string, { whole: number; part: number }>()
  const batchOf = new Map(batches.map((batch) => [batch.id, batch]))
  const accounted = new Map<string, number>()
  const within = new Map<string, number>()
  for (const { batchId, kind, _sum } of ofBatches) {
    const batch = batchOf.get(batchId ?? '')
    if (!batch) continue
    const [whole, part] = [_sum.wholeDelta ?? 0, _sum.partDeltaStrandTenths ?? 0]
    const before = journal.get(batch.id) ?? { whole: 0, part: 0 }
    journal.set(batch.id, { whole: before.whole + whole, part: before.part + part })
    const into = beyond.has(kind) ? accounted : within
    into.set(batch.threadId, (into.get(batch.threadId) ?? 0) + whole * batch.putUpStrandTenths + part)
  }
  const held = new Map<string, number>()
  for (const batch of batches) {
    const { whole, part } = journal.get(batch.id) ?? { whole: 0, part: 0 }
    if (whole !== batch.wholePutUps || part !== batch.partStrandTenths)
      faults.push(`batch ${batch.id} holds ${batch.wholePutUps} and ${batch.partStrandTenths}, its journal ${whole} and ${part}`)
    if (batch.wholePutUps < 0 || batch.partStrandTenths < 0) faults.push(`batch ${batch.id} holds less than nothing`)
    if (batch.goneAt !== null && (batch.wholePutUps !== 0 || batch.partCertainty !== 'none'))
      faults.push(`batch ${batch.id} is gone and holds thread`)
    const length = batch.wholePutUps * batch.putUpStrandTenths + batch.partStrandTenths
    held.set(batch.threadId, (held.get(batch.threadId) ?? 0) + length)
  }
  for (const [threadId, length] of held) {
    if (length !== (accounted.get(threadId) ?? 0))
      faults.push(`thread ${threadId}: ${length} held, ${accounted.get(threadId)} received, used and corrected`)
    if ((within.get(threadId) ?? 0) !== 0) faults.push(`thread ${threadId}: ${within.get(threadId)} made by being moved`)
  }
  const ofThings = async (by: 'clothPieceId' | 'chartId' | 'notionId') => {
    const rows = await prisma.movement.groupBy({ by: [by], _sum: { wholeDelta: true }, where: { [by]: { not: null } } })
    return new Map(rows.map((row) => [(row as Record<string, unknown>)[by] as string, row._sum?.wholeDelta ?? 0]))
  }
  for (const [noun, rows, by] of [
    ['cloth', cloth.map((row) => ({ ...row, many: 1 })), 'clothPieceId'],
    ['chart', charts.map((row) => ({ ...row, many: row.copies })), 'chartId'],
    ['notion', notions.map((row) => ({ ...row, many: row.count })), 'notionId'],
  ] as const) {
    const sum = await ofThings(by)
    for (const { id, many, goneAt } of rows) {
      if (many < 0) faults.push(`${noun} ${id}: ${many} of it`)
      if ((sum.get(id) ?? 0) !== (goneAt === null ? many : 0))
        faults.push(`${noun} ${id}: ${goneAt ? 'gone' : many}, its journal ${sum.get(id) ?? 0}`)
    }
  }

  // Where things are: in places that stand, in one of them, and out since a day or not out at all.
  const stands = (placeId: string | null) => placeId === null || placeOf.get(placeId)?.goneAt === null
  for (const [noun, rows] of [
    ['batch', batches],
    ['cloth', cloth],
    ['chart', charts],
    ['notion', notions],
  ] as const)
    for (const { id, goneAt, homePlaceId, currentPlaceId, outSince } of rows) {
      if (goneAt !== null) continue
      if (!stands(homePlaceId)) faults.push(`${noun} ${id} lives in a place that is gone`)
      if (!stands(currentPlaceId)) faults.push(`${noun} ${id} lies in a place that is gone`)
      const isAway = homePlaceId !== null && currentPlaceId !== null && homePlaceId !== currentPlaceId
      if (isAway !== (outSince !== null))
        faults.push(`${noun} ${id} is ${isAway ? 'out' : 'home'} since ${outSince?.toISOString()}`)
    }
  for (const place of places) {
    if (place.goneAt !== null) continue
    const parent = place.parentId === null ? null : placeOf.get(place.parentId)
    if (parent !== null && parent?.goneAt !== null) faults.push(`place ${place.label} stands in a place that is gone`)
    if (place.path !== `${parent?.path ?? '/'}${place.id}/`) faults.push(`place ${place.label} has the path ${place.path}`)
  }
  for (const { id, status, goneAt, placeId } of projects)
    if (goneAt === null && open.includes(status) && !stands(placeId))
      faults.push(`project ${id} is kitted in a place that is gone`)

  // Promises: to open projects, and no more than there is, or said to be broken.
  const ofBatch = lines(promises, ({ batchId }) => batchId)
  const unsupported = new Set<string>()
  for (const [batchId, some] of ofBatch) {
    const batch = batchOf.get(batchId)
    const known = batch ? batch.wholePutUps * batch.putUpStrandTenths + batch.partStrandTenths : 0
    const promised = some.reduce((sum, { strandTenths }) => sum + strandTenths, 0)
    const isOthers = some.some(({ projectId }) => projectOf.get(projectId)?.ownerId !== batch?.ownerId)
    if (!batch || batch.goneAt !== null || promised > known || isOthers) unsupported.add(batchId)
    for (const { projectId, strandTenths } of some) {
      const project = projectOf.get(projectId)
      if (!project || !open.includes(project.status)) faults.push(`batch ${batchId} is promised to a project ${project?.status}`)
      if (strandTenths <= 0) faults.push(`batch ${batchId} has a promise of nothing`)
    }
  }
  const said = new Set((await listBrokenPromises({}, prisma)).map(({ batchId }) => batchId))
  for (const id of unsupported) if (!said.has(id)) faults.push(`batch ${id} is promised beyond what it holds, and nobody says so`)
  for (const id of said) if (!unsupported.has(id)) faults.push(`batch ${id} is said to break a promise it keeps`)

  // What is with somebody is there, once.
  const lent = await prisma.loanLine.findMany({
    where: { backOn: null, loan: { closedOn: null } },
    include: { loan: true },
    orderBy: { id: 'asc' },
  })
  for (const { loan, ...line } of lent) {
    if (!stands(loan.placeId)) faults.push(`loan ${loan.id} is with somebody who is gone`)
    const thing =
      (line.batchId && batchOf.get(line.batchId)) ||
      cloth.find(({ id }) => id === line.clothPieceId) ||
      notions.find(({ id }) => id === line.notionId)
    if (!thing) continue
    if (thing.goneAt !== null) faults.push(`loan ${loan.id} waits for ${thing.id}, which is gone`)
    else if (loan.kind === 'borrow' && thing.currentPlaceId === thing.homePlaceId)
      faults.push(`loan ${loan.id} waits for ${thing.id}, which is at home`)
    else if (loan.kind !== 'borrow' && thing.currentPlaceId !== loan.placeId) {
      const isNotFound = placeOf.get(thing.currentPlaceId ?? '')?.kind === 'not found'
      if (!isNotFound) faults.push(`loan ${loan.id} waits for ${thing.id}, which is not with them`)
    }
  }
  // Two lent rows laid together at somebody's are one row on two lines.
  for (const [id, some] of lines(lent, ({ batchId }) => batchId))
    if (new Set(some.map(({ loan }) => loan.placeId)).size > 1) faults.push(`${id} is lent to two at once`)
  for (const by of ['clothPieceId', 'notionId', 'projectId'] as const)
    for (const [id, some] of lines(lent, (line) => line[by]))
      if (some.length > 1) faults.push(`${id} is lent ${some.length} times`)
  for (const [id, some] of lines(lent, ({ chartId }) => chartId)) {
    const chart = charts.find((row) => row.id === id)
    const copies = chart?.goneAt === null ? chart.copies : 0
    const away = some.reduce((sum, { count }) => sum + count, 0)
    if (away > copies) faults.push(`chart ${id}: ${away} of ${copies} copies lent`)
  }
  for (const chart of charts) {
    const isWithSomebody = people.includes(placeOf.get(chart.currentPlaceId ?? '')?.kind ?? '')
    if (chart.goneAt === null && isWithSomebody && !lent.some(({ chartId }) => chartId === chart.id))
      faults.push(`chart ${chart.id} is with somebody and on no loan`)
  }

  // What is looked for is out.
  const asked = await prisma.missingThing.findMany({ where: { status: 'open' } })
  for (const { batchId, clothPieceId, chartId, notionId } of asked) {
    const id = batchId ?? clothPieceId ?? chartId ?? notionId
    const thing = [...batches, ...cloth, ...charts, ...notions].find((row) => row.id === id)
    if (!thing || thing.goneAt !== null) faults.push(`${id} is looked for and gone`)
    else if (thing.outSince === null) faults.push(`${id} is looked for and at home`)
  }
  for (const [id, some] of lines(asked, (row) => row.batchId ?? row.clothPieceId ?? row.chartId ?? row.notionId))
    if (some.length > 1) faults.push(`${id} is looked for ${some.length} times`)

  // Lists and kits: nothing waits on two lists to be put back, and no bag has two cuts of one thread.
  const waiting = await prisma.walkLine.findMany({ where: { carriedAt: null, walk: { status: 'open', kind: 'put-back' } } })
  for (const [id, some] of lines(waiting, (row) => row.batchId ?? row.clothPieceId ?? row.chartId ?? row.notionId))
    if (some.length > 1) faults.push(`${id} waits on ${some.length} lists to be put back`)
  const cuts = new Set<string>()
  for (const { projectId, threadId, fromBag, toBag } of await prisma.kitLot.findMany())
    for (let bag = fromBag; bag <= toBag; bag++) {
      const cut = `${projectId} ${threadId} ${bag}`
      if (cuts.has(cut)) faults.push(`bag ${bag} has two cuts of thread ${threadId}`)
      cuts.add(cut)
      if (bag < 1 || bag > (projectOf.get(projectId)?.quantity ?? 0)) faults.push(`bag ${bag} was cut for and is none`)
    }

  // Free is what is owned, less what is out and what is promised, never below nothing.
  const ownerIds = [...new Set(batches.map(({ ownerId }) => ownerId))]
  const present = batches
    .filter(({ goneAt }) => goneAt === null)
    .map((batch) => ({ ...batch, partCertainty: batch.partCertainty as PartCertainty }))
  for (const [threadId, some] of lines(present, (batch) => batch.threadId)) {
    const free = freeStock({ threadId, batches: some, promises, ownerIds })
    const known = some.reduce((sum, batch) => sum + batch.wholePutUps * batch.putUpStrandTenths + batch.partStrandTenths, 0)
    if (free.ownedStrandTenths !== known) faults.push(`thread ${threadId}: ${free.ownedStrandTenths} owned of ${known}`)
    if (free.freeStrandTenths !== free.ownedStrandTenths - free.outStrandTenths - free.promisedStrandTenths)
      faults.push(`thread ${threadId}: free is not what is left`)
    if (free.freeStrandTenths < 0) faults.push(`thread ${threadId}: ${free.freeStrandTenths} free`)
  }
  return faults
}
