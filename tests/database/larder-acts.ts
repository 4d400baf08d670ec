import { undoBulkEdit } from '#lib/db/bulk-edit/undo-bulk-edit'
import { moveChart } from '#lib/db/chart/move-chart'
import { removeChart } from '#lib/db/chart/remove-chart'
import { restoreChart } from '#lib/db/chart/restore-chart'
import type { Database } from '#lib/db/client'
import { cutCloth } from '#lib/db/cloth/cut-cloth'
import { moveCloth, returnCloth } from '#lib/db/cloth/move-cloth'
import { removeCloth } from '#lib/db/cloth/remove-cloth'
import { restoreCloth } from '#lib/db/cloth/restore-cloth'
import { transferCloth } from '#lib/db/cloth/transfer-cloth'
import { dropCount, finishCounting, signCount } from '#lib/db/count/close-count'
import { decideLine } from '#lib/db/count/decide-line'
import { enterCounts } from '#lib/db/count/enter-counts'
import { startCount } from '#lib/db/count/start-count'
import { carryOutFiling } from '#lib/db/filing/carry-out-filing'
import { findFiling } from '#lib/db/filing/read-filing'
import { readMasterList } from '#lib/db/kit/master-list'
import { cutAgain, cutKits } from '#lib/db/kit-bag/cut-kits'
import { markBags } from '#lib/db/kit-bag/mark-bags'
import { stepBags } from '#lib/db/kit-bag/step-bags'
import { borrowThings } from '#lib/db/loan/borrow'
import { closeLoan } from '#lib/db/loan/close-loan'
import type { LoanThing } from '#lib/db/loan/hand-over'
import { lendThings } from '#lib/db/loan/lend'
import { sendAway } from '#lib/db/loan/send'
import { takeBack } from '#lib/db/loan/take-back'
import { reportNow, reportThingNow } from '#lib/db/missing/report-now'
import { foundMissing, giveUpMissing } from '#lib/db/missing/settle-missing'
import { countNotion } from '#lib/db/notion/count-notion'
import { moveNotion } from '#lib/db/notion/move-notion'
import { putBackNotion } from '#lib/db/notion/put-back-notion'
import { removeNotion } from '#lib/db/notion/remove-notion'
import { restoreNotion } from '#lib/db/notion/restore-notion'
import { takeNotion } from '#lib/db/notion/take-notion'
import { mergePlace } from '#lib/db/place/merge-place'
import { movePlace } from '#lib/db/place/move-place'
import { removePlace } from '#lib/db/place/remove-place'
import { restorePlace } from '#lib/db/place/restore-place'
import { returnChart } from '#lib/db/place/return-chart'
import { splitPlace } from '#lib/db/place/split-place'
import { undoPlaceChange } from '#lib/db/place/undo-place-change'
import { changeBag } from '#lib/db/project/change-bag'
import { finishProject } from '#lib/db/project/finish-project'
import { kitProject } from '#lib/db/project/kit-project'
import { moveProject } from '#lib/db/project/move-project'
import { promiseAgain } from '#lib/db/project/promise-again'
import { abandonProject, releaseProject } from '#lib/db/project/put-kit-back'
import { startProject } from '#lib/db/project/start-project'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { mergeBatches } from '#lib/db/stock/merge-batches'
import { moveBatch } from '#lib/db/stock/move-batch'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { releasePromises } from '#lib/db/stock/release-promises'
import { returnBatch } from '#lib/db/stock/return-batch'
import { splitBatch } from '#lib/db/stock/split-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { transferBatch } from '#lib/db/stock/transfer-batch'
import { unpackBag } from '#lib/db/unpack/unpack-bag'
import { bringUpToDate } from '#lib/db/walk/bring-up-to-date'
import { carryOut } from '#lib/db/walk/carry-out'
import { closeWalk } from '#lib/db/walk/close-walk'
import { reportLineMissing } from '#lib/db/walk/report-line-missing'
import { startPull } from '#lib/db/walk/start-pull'
import { takeInstead } from '#lib/db/walk/take-instead'
import { tickLines } from '#lib/db/walk/tick-lines'
import type { SmallWorld } from './small-world'
import { aStart, goods } from './things'

/** What chance decides of an act: which of the things there are, how many, and the odd yes or no. */
export type Chance = { first: number; second: number; many: number; yes: boolean; other: boolean }

type Answer = { ok: boolean; error?: unknown } | null
type Here = { prisma: Database['prisma']; world: SmallWorld } & Chance

const pick = <Row>(rows: readonly Row[], turn: number): Row | null => rows[turn % Math.max(1, rows.length)] ?? null
const oldest = { orderBy: { id: 'asc' } } as const
const there = { goneAt: null }
const open = ['planned', 'kitted', 'stitching', 'resting', 'stitched']
const today = '2026-11-29'
const who = 'Nell Oxtoby'

/** Rows, less often the empty ones, which are many after some days. */
const aBatch = async ({ prisma, first }: Here) =>
  pick(await prisma.batch.findMany({ where: { ...there, NOT: { wholePutUps: 0, partCertainty: 'none' } }, ...oldest }), first)
const anotherBatch = async ({ prisma, second }: Here) => pick(await prisma.batch.findMany({ where: there, ...oldest }), second)
const outBatch = async ({ prisma, first }: Here) =>
  pick(await prisma.batch.findMany({ where: { ...there, outSince: { not: null } }, ...oldest }), first)
const aPlace = async ({ prisma, second }: Here) =>
  pick(await prisma.place.findMany({ where: { ...there, kind: { not: 'not found' } }, ...oldest }), second)
const aProject = async ({ prisma, second }: Here, statuses: readonly string[] = open) =>
  pick(await prisma.project.findMany({ where: { ...there, status: { in: [...statuses] } }, ...oldest }), second)
const aChart = async ({ prisma, first }: Here) => pick(await prisma.chart.findMany({ where: there, ...oldest }), first)
const aPiece = async ({ prisma, first }: Here) => pick(await prisma.clothPiece.findMany({ where: there, ...oldest }), first)
const aNotion = async ({ prisma, first }: Here) => pick(await prisma.notion.findMany({ where: there, ...oldest }), first)
const aLoan = async ({ prisma, first }: Here) =>
  pick(
    await prisma.loan.findMany({ where: { closedOn: null }, include: { lines: { orderBy: { position: 'asc' } } }, ...oldest }),
    first,
  )
const aWalk = async ({ prisma, first }: Here, kinds = ['pull', 'put-back']) =>
  pick(
    await prisma.walk.findMany({
      where: { status: 'open', kind: { in: kinds } },
      include: { lines: { orderBy: { position: 'asc' } }, projects: true },
      ...oldest,
    }),
    first,
  )
const aQuestion = async ({ prisma, first }: Here) =>
  pick(await prisma.missingThing.findMany({ where: { status: 'open' }, include: { batch: true }, ...oldest }), first)
const aCount = async ({ prisma, first }: Here, statuses: readonly string[]) =>
  pick(
    await prisma.stockCount.findMany({ where: { status: { in: [...statuses] } }, include: { lines: oldest }, ...oldest }),
    first,
  )
const someKits = async ({ prisma, second }: Here) =>
  pick(await prisma.project.findMany({ where: { ...there, status: { in: open }, quantity: { gt: 1 } }, ...oldest }), second)

/** Some of what an owner has, as it might go into somebody's hands. */
async function thingsOf(here: Here, ownerId: string): Promise<LoanThing[]> {
  const { prisma, first, many, yes, other } = here
  const mine = { where: { ...there, ownerId }, ...oldest }
  const things: LoanThing[] = []
  const batch = pick(await prisma.batch.findMany(mine), first)
  if (batch && (yes || other)) things.push({ noun: 'batch', id: batch.id, wholePutUps: Math.max(1, many), takesPart: other })
  const chart = pick(await prisma.chart.findMany(mine), first)
  if (chart && !other) things.push({ noun: 'chart', id: chart.id, count: yes ? 1 : 1 + many })
  const piece = pick(await prisma.clothPiece.findMany(mine), first)
  if (piece && many === 2) things.push({ noun: 'cloth', id: piece.id })
  const notion = pick(await prisma.notion.findMany(mine), first)
  if (notion && many !== 1) things.push({ noun: 'notion', id: notion.id, count: 1 + many })
  return things
}

const agreed = (here: Here, things: readonly LoanThing[]) => ({
  ...{ withLabel: here.world.peopleLabels[here.second % 2] as string, withKind: 'person' as const },
  ...{ ownerId: here.world.ownerIds[here.second % 2] as string, reason: 'asked', fromOn: today, dueOn: '2026-12-20' },
  ...{ note: null, things, acceptsClash: true, who },
})

const bagOf = ({ world, first }: Here) => world.bagLabels[first % world.bagLabels.length] as string

/** Everything people do with a larder, a table of acts. Each looks for something to do it to, and does nothing when there is none. */
export const acts = {
  receive: ({ world, first, second, many, yes, other, ...here }) =>
    aPlace({ world, first, second, many, yes, other, ...here }).then((place) =>
      receiveThread(
        goods({
          ...{ threadId: pick(world.threadIds, first) as string, ownerId: pick(world.ownerIds, second) as string },
          ...{ wholePutUps: many, homePlaceId: place?.id ?? null, lot: yes ? '18' : other ? '22' : null },
          ...(other && { partStrandTenths: 33_000, partCertainty: 'measured' as const }),
        }),
      ),
    ),
  use: async (here) => {
    const [batch, project] = [await aBatch(here), await aProject(here)]
    const strandTenths = here.yes && here.other ? ('all' as const) : 1 + here.many * 70_000
    return batch && recordUse({ batchId: batch.id, strandTenths, projectId: here.yes ? project?.id : null })
  },
  take: async (here) => {
    const [batch, place, project] = [await aBatch(here), await aPlace(here), await aProject(here)]
    const taken = { wholePutUps: here.many, takesPart: here.yes || here.many === 0, projectId: here.other ? project?.id : null }
    return batch && place && takeThread({ batchId: batch.id, ...taken, toPlaceId: place.id })
  },
  return: async (here) => {
    const batch = await outBatch(here)
    return batch && returnBatch({ batchId: batch.id })
  },
  move: async (here) => {
    const [batch, place] = [await aBatch(here), await aPlace(here)]
    return batch && place && moveBatch({ batchId: batch.id, toPlaceId: place.id, becomesHome: here.yes })
  },
  split: async (here) => {
    const [batch, place] = [await aBatch(here), await aPlace(here)]
    const home = here.yes ? { homePlaceId: place?.id ?? null } : {}
    return batch && splitBatch({ batchId: batch.id, wholePutUps: here.many, takesPart: here.other, ...home })
  },
  merge: async (here) => {
    const [batch, into] = [await aBatch(here), await anotherBatch(here)]
    const like = batch && { threadId: batch.threadId, ownerId: batch.ownerId, lot: batch.lot, id: { not: batch.id } }
    const alike = like && pick(await here.prisma.batch.findMany({ where: { ...there, ...like }, ...oldest }), here.second)
    const intoBatchId = (alike ?? into)?.id
    return batch && intoBatchId ? mergeBatches({ batchId: batch.id, intoBatchId }) : null
  },
  transfer: async (here) => {
    const [batch, owner] = [await aBatch(here), pick(here.world.ownerIds, here.second)]
    const parting = here.yes ? { wholePutUps: here.many, takesPart: here.other } : null
    return batch && owner ? transferBatch({ batchId: batch.id, toOwnerId: owner, parting }) : null
  },
  correct: async (here) => {
    const batch = await aBatch(here)
    const part = here.other
      ? { partStrandTenths: 20_000, partCertainty: 'measured' as const }
      : { partStrandTenths: 0, partCertainty: 'none' as const }
    return batch && correctBatch({ batchId: batch.id, wholePutUps: here.many, ...part, reason: 'counted' })
  },
  promise: async (here) => {
    const [batch, project] = [await aBatch(here), await aProject(here)]
    return batch && project && promiseStock({ batchId: batch.id, projectId: project.id, strandTenths: 1 + here.many * 200_000 })
  },
  'promise no more': async (here) => {
    const project = await aProject(here)
    return project && releasePromises({ projectId: project.id })
  },

  lend: async (here) => {
    const things = await thingsOf(here, here.world.ownerIds[here.second % 2] as string)
    return lendThings({ ...agreed(here, things), dueOn: '2026-12-20' })
  },
  send: async (here) => {
    const project = here.yes ? await aProject(here) : null
    const ownerId = project?.ownerId ?? (here.world.ownerIds[here.second % 2] as string)
    const inBag =
      project && (await here.prisma.batch.findFirst({ where: { ...there, currentPlaceId: project.placeId ?? '' }, ...oldest }))
    const things: LoanThing[] = inBag
      ? [{ noun: 'batch', id: inBag.id, wholePutUps: inBag.wholePutUps, takesPart: inBag.partCertainty !== 'none' }]
      : await thingsOf(here, ownerId)
    return sendAway({ ...agreed(here, things), ownerId, withKind: 'framer', projectId: project?.id ?? null, priceMinor: null })
  },
  borrow: async (here) => {
    const things = await thingsOf(here, here.world.ownerIds[(here.second + 1) % 2] as string)
    return borrowThings({ ...agreed(here, things), keptInLabel: bagOf(here) })
  },
  'take back': async (here) => {
    const loan = await aLoan(here)
    const open = loan?.lines.filter(({ backOn }) => backOn === null) ?? []
    const lineIds = here.yes ? null : open.slice(0, 1 + here.many).map(({ id }) => id)
    return loan && takeBack({ loanId: loan.id, lineIds, on: today, note: null, placeLabel: here.other ? bagOf(here) : null, who })
  },
  'settle a loan': async (here) => {
    const loan = await aLoan(here)
    return loan && closeLoan({ loanId: loan.id, on: today, note: 'kept by them' })
  },

  'start a project': async (here) => {
    const { prisma, world, first, second, many, yes, other } = here
    if ((await prisma.project.count({ where: { ...there, status: { in: open } } })) > 6) return null
    const design = pick(world.designs, first) as SmallWorld['designs'][0]
    const ownerId = world.ownerIds[second % 2] as string
    const free = { ...there, ownerId, keptForProjectId: null }
    const piece = yes ? pick(await prisma.clothPiece.findMany({ where: free, ...oldest }), second) : null
    const kits = other && many > 1 ? { quantity: 3, spares: 1 } : {}
    return startProject(
      aStart({ ...design, ownerId, clothPieceId: piece?.id ?? null, bagLabel: yes ? bagOf(here) : null, ...kits }),
    )
  },
  'promise again': async (here) => {
    const project = await aProject(here)
    return project && promiseAgain({ projectId: project.id })
  },
  kit: async (here) => {
    const project = await aProject(here)
    return project && kitProject({ projectId: project.id, bagLabel: bagOf(here), takesChart: here.yes })
  },
  'change the bag': async (here) => {
    const project = await aProject(here)
    return project && changeBag({ projectId: project.id, bagLabel: bagOf(here) })
  },
  stitch: async (here) => {
    const project = await aProject(here)
    const to = (['stitching', 'stitching', 'resting', 'stitched'] as const)[here.many] ?? 'stitching'
    return project && moveProject({ projectId: project.id, to, today })
  },
  finish: async (here) => {
    const { yes, other, many } = here
    const project = await aProject(here, ['kitted', 'stitching', 'resting', 'stitched'])
    if (!project) return null
    const inBag = await here.prisma.batch.findMany({ where: { ...there, currentPlaceId: project.placeId ?? '' }, ...oldest })
    return finishProject({
      ...{ projectId: project.id, finishedOn: today, hoursTenths: 10, stitchesDone: 100, placeLabel: null, photo: null },
      ...{ finishing: null, forWhom: null, note: null, putBack: yes ? 'list' : 'now' },
      used: inBag.slice(0, many).map(({ threadId }) => ({ threadId, strandTenths: other ? 'all' : 30_000 })),
      missingBatchIds: many === 1 ? inBag.slice(0, 1).map(({ id }) => id) : [],
      cloth: project.clothPieceId && other ? { kind: 'used', offcuts: [] } : { kind: 'not-used' },
    })
  },
  'give a project up': async (here) => {
    const project = await aProject(here)
    return project && abandonProject({ projectId: project.id, putBack: here.yes ? 'list' : 'now' })
  },
  'empty the kit': async (here) => {
    const project = await aProject(here)
    return project && releaseProject({ projectId: project.id, putBack: here.yes ? 'list' : 'now' })
  },

  'start a walk': async (here) => {
    const first = await aProject(here)
    const other = await aProject({ ...here, second: here.second + 1 })
    const projectIds = [...(first ? [first.id] : []), ...(other && here.yes ? [other.id] : [])]
    return startPull({ projectIds, who })
  },
  tick: async (here) => {
    const walk = await aWalk(here)
    const status = here.many === 0 ? ('not there' as const) : ('done' as const)
    const lines = walk?.lines.filter((_, at) => here.yes || at % 2 === here.second % 2) ?? []
    const ticks = lines.map(({ id }) => ({ lineId: id, status, tickedAt: new Date(), by: who }))
    return walk && tickLines({ walkId: walk.id, ticks })
  },
  'take instead': async (here) => {
    const walk = await aWalk(here, ['pull'])
    const line = pick(walk?.lines.filter(({ batchId }) => batchId) ?? [], here.second)
    const batch = line && (await here.prisma.batch.findUnique({ where: { id: line.batchId ?? '' } }))
    const like = batch && { ownerId: batch.ownerId, id: { not: batch.id }, ...(here.yes && { threadId: batch.threadId }) }
    const other = like && pick(await here.prisma.batch.findMany({ where: { ...there, ...like }, ...oldest }), here.many)
    return walk && line && other ? takeInstead({ walkId: walk.id, lineIds: [line.id], batchId: other.id, who }) : null
  },
  'not on the walk': async (here) => {
    const walk = await aWalk(here)
    const line = pick(walk?.lines.filter(({ batchId }) => batchId) ?? [], here.second)
    return walk && line && reportLineMissing({ walkId: walk.id, lineIds: [line.id], who })
  },
  'carry out': async (here) => {
    const walk = await aWalk(here)
    const bags =
      walk?.projects.map(({ projectId }, at) => ({ projectId, label: bagOf({ ...here, first: here.second + at }) })) ?? []
    return walk && carryOut({ walkId: walk.id, bags, who })
  },
  'walk anew': async (here) => {
    const walk = await aWalk(here)
    return walk && bringUpToDate({ walkId: walk.id })
  },
  'end a walk': async (here) => {
    const walk = await aWalk(here)
    return walk && closeWalk({ walkId: walk.id, status: here.yes ? 'done' : 'dropped', who })
  },

  unpack: async (here) => {
    const { prisma, first, many, yes, other } = here
    const bags = await prisma.place.findMany({ where: { ...there, kind: { in: ['bag', 'compartment', 'box'] } }, ...oldest })
    const bag = pick(bags, first)
    if (!bag) return null
    const lying = { where: { ...there, currentPlaceId: bag.id, NOT: { homePlaceId: bag.id } }, ...oldest }
    const [batches, charts] = [await prisma.batch.findMany(lying), await prisma.chart.findMany(lying)]
    const [cloth, notions] = [await prisma.clothPiece.findMany(lying), await prisma.notion.findMany(lying)]
    const project = await prisma.project.findFirst({ where: { placeId: bag.id, status: { in: open } }, ...oldest })
    const outcomes = [
      { kind: 'as-it-was' as const },
      { kind: 'used-up' as const },
      { kind: 'not-there' as const },
      { kind: 'left' as const, how: 'measured' as const, strandTenths: 40_000 },
      { kind: 'left' as const, how: 'guess' as const, putUpHundredths: 50 },
      { kind: 'stays' as const },
    ]
    const things = (['back', 'stays', 'not-there'] as const)[many % 3] ?? 'back'
    return unpackBag({
      ...{ placeId: bag.id, title: 'Put back', who, freedProjectIds: yes && project ? [project.id] : [] },
      threads: batches.map(({ id, wholePutUps }, at) => ({
        batchId: id,
        outcome: outcomes[(many + at) % outcomes.length] ?? { kind: 'as-it-was' },
        notThere: other && wholePutUps > 1 && at === 0 ? 1 : 0,
        projectId: project?.id ?? null,
      })),
      charts: charts.map(({ id }) => ({ id, outcome: things })),
      cloth: cloth.map(({ id }) => ({ id, outcome: things })),
      notions: notions.map(({ id }) => ({ id, outcome: yes ? 'used-up' : things })),
    })
  },
  'look in vain': async (here) => {
    const batch = await aBatch(here)
    const asked = { wholePutUps: Math.max(1, here.many), takesPart: here.yes, stays: here.other, lastSeenPlaceId: null, who }
    return batch && reportNow({ batchId: batch.id, ...asked })
  },
  'look for a thing in vain': async (here) => {
    const [noun, thing] = (
      [
        ['cloth', await aPiece(here)],
        ['chart', await aChart(here)],
        ['notion', await aNotion(here)],
      ] as const
    )[here.second % 3] as ['cloth' | 'chart' | 'notion', { id: string } | null]
    return thing && reportThingNow({ noun, id: thing.id, who })
  },
  find: async (here) => {
    const question = await aQuestion(here)
    const place = await aPlace(here)
    const where = ([{ kind: 'home' }, { kind: 'last-seen' }, { kind: 'place', label: place?.label ?? 'T1' }] as const)[
      here.many % 3
    ]
    const found = here.yes && question?.batchId ? { wholePutUps: 1, takesPart: here.other } : undefined
    return question && where ? foundMissing({ missingId: question.id, where, found, who }) : null
  },
  'look no more': async (here) => {
    const question = await aQuestion(here)
    return question && giveUpMissing({ missingId: question.id, reason: 'not seen again', who })
  },

  'cut kits': async (here) => {
    const project = await someKits(here)
    return project && cutKits({ projectId: project.id, by: who, acceptsLots: here.yes || here.other })
  },
  'cut again': async (here) => {
    const project = await someKits(here)
    const lot = project && pick(await here.prisma.kitLot.findMany({ where: { projectId: project.id }, ...oldest }), here.first)
    return project && lot && cutAgain({ projectId: project.id, bag: lot.fromBag, threadId: lot.threadId, by: who })
  },
  'step bags': async (here) => {
    const project = await someKits(here)
    const steps = ['pack', 'seal', 'sell', 'pack', 'seal', 'unpack', 'unseal', 'take back'] as const
    const step = steps[here.first % steps.length] ?? 'pack'
    const bags = here.yes ? [1 + here.many] : [1, 2]
    return project && stepBags({ projectId: project.id, step, bags, by: who, reason: 'asked' })
  },
  'check bags': async (here) => {
    const project = await someKits(here)
    if (!project) return null
    const bags = await here.prisma.kitBag.findMany({
      where: { projectId: project.id, status: 'packed' },
      orderBy: { number: 'asc' },
    })
    const master = await readMasterList(project.id)
    const keys = master?.lines.map(({ key }) => key) ?? []
    const marks = bags.flatMap(({ number, isSpare }) =>
      keys
        .filter((key) => !(isSpare && key === 'chart'))
        .map((key) => ({ bag: number, key, status: here.many === 0 ? ('short' as const) : ('there' as const) })),
    )
    return markBags({ projectId: project.id, by: 'Ines Coldwell', isAlone: true, marks })
  },

  'begin a count': async (here) => {
    const place = await aPlace(here)
    return place && startCount({ placeId: place.id, by: who })
  },
  count: async (here) => {
    const counting = await aCount(here, ['open', 'counted'])
    const entered = counting?.lines.map((line, at) => ({
      lineId: line.id,
      counted: at % 3 === 0 ? Math.max(0, line.expected + here.many - 1) : line.expected,
      sawCountedAt: line.countedAt,
    }))
    return counting && enterCounts({ countId: counting.id, by: 'Ines Coldwell', entered: entered ?? [] })
  },
  'end counting': async (here) => {
    const counting = await aCount(here, ['open'])
    return counting && finishCounting({ countId: counting.id })
  },
  decide: async (here) => {
    const counting = await aCount(here, ['counted'])
    const line = pick(
      counting?.lines.filter(({ expected, counted }) => counted !== null && counted !== expected) ?? [],
      here.second,
    )
    const outcome = (['accepted', 'accepted', 'recount', 'left'] as const)[here.many] ?? 'accepted'
    const decided = { outcome, sawCounted: line?.counted ?? null, by: who, reasonOf: () => 'counted' }
    return counting && line && decideLine({ countId: counting.id, lineId: line.id, ...decided })
  },
  'sign a count': async (here) => {
    const counting = await aCount(here, ['counted'])
    return counting && (here.other ? dropCount({ countId: counting.id }) : signCount({ countId: counting.id, by: who }))
  },

  file: async (here) => {
    const request = {
      ...{
        lineId: pick(here.world.lineIds, here.first) as string,
        ownerIds: here.yes ? here.world.ownerIds : here.world.ownerIds.slice(0, 1),
      },
      ...{ order: 'number' as const, capacity: 3, percent: 75, codes: [], takesUnplaced: here.other },
    }
    const { fingerprint, growth } = await findFiling(request)
    const choice = pick(growth.choices, here.many)
    return choice && carryOutFiling({ ...request, way: choice.way, fingerprint, what: 'Filed anew', who })
  },
  'take the filing back': async (here) => {
    const edits = await here.prisma.bulkEdit.findMany({
      where: { status: 'done', stepsJson: { startsWith: '{"change"' } },
      ...oldest,
    })
    const edit = pick(edits, here.first)
    return edit && undoBulkEdit({ bulkEditId: edit.id, who })
  },
  'merge places': async (here) => {
    const [from, into] = [await aPlace({ ...here, second: here.first }), await aPlace(here)]
    // The world would soon be one drawer.
    if ((await here.prisma.place.count({ where: there })) < 13) return null
    return from && into && mergePlace({ id: from.id, version: from.version, intoId: into.id, addsRoom: here.yes, who })
  },
  'split a place': async (here) => {
    const from = await aPlace(here)
    if (!from || (await here.prisma.place.count({ where: there })) > 18) return null
    const batches = await here.prisma.batch.findMany({ where: { ...there, homePlaceId: from.id }, ...oldest })
    const charts = await here.prisma.chart.findMany({ where: { ...there, homePlaceId: from.id }, ...oldest })
    const inside = await here.prisma.place.findMany({ where: { ...there, parentId: from.id }, ...oldest })
    const things = [
      ...batches.map(({ id, version }) => ({ noun: 'thread' as const, id, version })),
      ...charts.map(({ id, version }) => ({ noun: 'chart' as const, id, version })),
    ].filter((_, at) => at % 2 === here.many % 2)
    return splitPlace({
      ...{ id: from.id, version: from.version, things, insideIds: here.yes ? inside.slice(0, 1).map(({ id }) => id) : [] },
      place: { label: `${from.label}s${here.first}`, name: null, kind: 'compartment' },
      ...{ way: here.other ? 'inside' : 'beside', who },
    })
  },
  'take a merge or split back': async (here) => {
    const edits = await here.prisma.bulkEdit.findMany({
      where: { status: 'done', stepsJson: { startsWith: '{"places"' } },
      ...oldest,
    })
    const edit = pick(edits, here.first)
    return edit && undoPlaceChange({ changeId: edit.id, who })
  },
  'move a place': async (here) => {
    const [place, into] = [await aPlace({ ...here, second: here.first }), await aPlace(here)]
    return place && movePlace({ id: place.id, version: place.version, toParentId: here.yes ? (into?.id ?? null) : null })
  },
  'take a place away': async (here) => {
    const place = await aPlace(here)
    return place && removePlace({ id: place.id, version: place.version })
  },
  'put a place back': async (here) => {
    const place = pick(await here.prisma.place.findMany({ where: { goneAt: { not: null } }, ...oldest }), here.first)
    return place && restorePlace({ id: place.id, version: place.version })
  },

  'take a notion': async (here) => {
    const [notion, project] = [await aNotion(here), await aProject(here)]
    return notion && project && takeNotion({ id: notion.id, version: notion.version, projectId: project.id, many: 1 + here.many })
  },
  'put a notion back': async (here) => {
    const notion = await aNotion(here)
    return notion && putBackNotion({ id: notion.id, version: notion.version })
  },
  'count notions': async (here) => {
    const notion = await aNotion(here)
    const change = (['received', 'used', 'counted'] as const)[here.second % 3] ?? 'counted'
    return notion && countNotion({ id: notion.id, version: notion.version, change, many: 1 + here.many, reason: null })
  },
  'move a notion': async (here) => {
    const [notion, place] = [await aNotion(here), await aPlace(here)]
    const { id, version } = notion ?? { id: '', version: 0 }
    return notion && place && moveNotion({ id, version, toPlaceLabel: place.label, becomesHome: here.yes })
  },
  'a notion goes and comes': async (here) => {
    const { prisma, first, yes } = here
    const notion = yes
      ? await aNotion(here)
      : pick(await prisma.notion.findMany({ where: { goneAt: { not: null } }, ...oldest }), first)
    const { id, version } = notion ?? { id: '', version: 0 }
    return notion && (yes ? removeNotion({ id, version, reason: null }) : restoreNotion({ id, version }))
  },
  'cut cloth': async (here) => {
    const piece = await aPiece(here)
    if (!piece || piece.widthUm < 100_000) return null
    const half = { widthUm: Math.floor(piece.widthUm / 2), heightUm: piece.heightUm }
    const offcuts = [{ ...half, label: null, placeLabel: here.other ? 'N1' : null }]
    return cutCloth({
      id: piece.id,
      version: piece.version,
      remaining: here.yes ? half : null,
      offcuts,
      projectId: null,
      note: null,
    })
  },
  'move cloth': async (here) => {
    const [piece, place] = [await aPiece(here), await aPlace(here)]
    const { id, version } = piece ?? { id: '', version: 0 }
    if (here.other) return piece && returnCloth({ id, version })
    return piece && place && moveCloth({ id, version, toPlaceLabel: place.label, becomesHome: here.yes })
  },
  'cloth goes and comes': async (here) => {
    const { prisma, first, second, yes, other, world } = here
    const piece = yes
      ? await aPiece(here)
      : pick(await prisma.clothPiece.findMany({ where: { goneAt: { not: null } }, ...oldest }), first)
    const { id, version } = piece ?? { id: '', version: 0 }
    if (yes && other)
      return piece && transferCloth({ id, version, toOwnerId: world.ownerIds[second % 2] as string, reason: null })
    return piece && (yes ? removeCloth({ id, version, ending: 'passed on', note: null }) : restoreCloth({ id, version }))
  },
  'move a chart': async (here) => {
    const [chart, place] = [await aChart(here), await aPlace(here)]
    const { id, version } = chart ?? { id: '', version: 0 }
    if (here.other) return chart && returnChart({ id, version })
    return chart && place && moveChart({ id, version, toPlaceLabel: place.label, how: here.yes ? 'home' : 'take', reason: null })
  },
  'a chart goes and comes': async (here) => {
    const { prisma, first, yes } = here
    const chart = yes
      ? await aChart(here)
      : pick(await prisma.chart.findMany({ where: { goneAt: { not: null } }, ...oldest }), first)
    const { id, version } = chart ?? { id: '', version: 0 }
    return chart && (yes ? removeChart({ id, version, ending: 'slip', note: null }) : restoreChart({ id, version }))
  },
} as const satisfies Record<string, (here: Here) => Promise<Answer | undefined>>

export type ActName = keyof typeof acts
