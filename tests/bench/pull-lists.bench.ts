import { type Database, database } from '#lib/db/client'
import { newId } from '#lib/db/new-id'
import { getSettings } from '#lib/db/settings/settings'
import { type Pull, readPull, readPulledProjects } from '#lib/db/walk/read-pull'
import { madeCollection, openFolder } from './made-collection'
import type { Bench, Measurement } from './measurement'
import { percentile } from './timing'

const [kits, threadsInKit] = [40, 40]
const rounds = 40
const warmUps = 4

/** Projects with bags, each promised one put-up of so many threads; kits side by side share some of their batches. */
async function addKits({ prisma }: Database, ownerId: string): Promise<string[]> {
  const batches = await prisma.batch.findMany({
    where: { ownerId, goneAt: null, wholePutUps: { gte: 2 }, homePlaceId: { not: null } },
    select: { id: true, putUpStrandTenths: true },
    orderBy: { id: 'asc' },
  })
  if (batches.length < threadsInKit * 2) throw new Error(`pull-lists: only ${batches.length} batches in the collection`)
  const designs = await prisma.design.findMany({ select: { id: true }, orderBy: { id: 'asc' }, take: kits })
  const projectIds = Array.from({ length: kits }, newId)
  const design = (at: number) => designs[at % designs.length]?.id as string
  await prisma.project.createMany({ data: projectIds.map((id, at) => ({ id, designId: design(at), ownerId })) })
  // Spread over the whole stock, in steps that share no factor with the kits.
  const promises = projectIds.flatMap((projectId, kit) =>
    Array.from({ length: threadsInKit }, (_, at) => {
      const batch = batches[(kit * 17 + at * 29) % batches.length] as (typeof batches)[number]
      return { projectId, batchId: batch.id, strandTenths: Math.floor(batch.putUpStrandTenths / 4) }
    }),
  )
  const once = new Map(promises.map((promise) => [`${promise.projectId} ${promise.batchId}`, promise]))
  await prisma.stockPromise.createMany({ data: [...once.values()].map((promise) => ({ id: newId(), ...promise })) })
  return projectIds
}

/** Every row the list is made of, joined by the database and looked at no further: what any list must read. */
async function readBare({ prisma }: Database, projectIds: readonly string[]): Promise<number> {
  const marks = projectIds.map(() => '?').join(', ')
  const rows = await prisma.$queryRawUnsafe<unknown[]>(
    `SELECT p."projectId", p."strandTenths", b.*, t."code", m."name", h."label", h."path", h."walkOrder"
       FROM "StockPromise" p JOIN "Batch" b ON b."id" = p."batchId" JOIN "Thread" t ON t."id" = b."threadId"
       JOIN "ThreadLine" l ON l."id" = t."lineId" JOIN "Maker" m ON m."id" = l."makerId"
       LEFT JOIN "Place" h ON h."id" = b."currentPlaceId" WHERE p."projectId" IN (${marks})`,
    ...projectIds,
  )
  return rows.length
}

async function readList({ prisma }: Database, projectIds: readonly string[]): Promise<Pull> {
  const projects = await readPulledProjects(prisma, projectIds)
  if (!projects.ok) throw new Error(`pull-lists: ${projects.error.kind}`)
  return readPull(prisma, projects.value, await getSettings())
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const begun = performance.now()
  await work()
  return performance.now() - begun
}

async function run(): Promise<Measurement[]> {
  const { folder, ownerIds } = await madeCollection('shop')
  await openFolder(folder)
  const store = database()
  const projectIds = await addKits(store, ownerIds[0] as string)
  const samples = { ours: [] as number[], against: [] as number[] }
  try {
    const { stops } = await readList(store, projectIds)
    const threads = stops.filter(({ batchId }) => batchId !== null).length
    const promised = await readBare(store, projectIds)
    if (threads > promised || threads < promised * 0.9) throw new Error(`pull-lists: ${threads} lines of ${promised} promises`)
    for (let round = -warmUps; round < rounds; round++) {
      const turns = round % 2 === 0 ? (['ours', 'against'] as const) : (['against', 'ours'] as const)
      for (const turn of turns) {
        const ms = await timed(() => (turn === 'ours' ? readList(store, projectIds) : readBare(store, projectIds)))
        if (round >= 0) samples[turn].push(ms)
      }
    }
  } finally {
    // The collection is shared by other groups: it is left as it was.
    await store.prisma.stockPromise.deleteMany({ where: { projectId: { in: projectIds } } })
    await store.prisma.project.deleteMany({ where: { id: { in: projectIds } } })
  }
  const p95 = { ours: percentile(samples.ours, 0.95), against: percentile(samples.against, 0.95) }
  return [
    {
      name: `pull list for ${kits} kits of ${threadsInKit} threads, p95, against reading the same rows bare`,
      ...{ ...p95, ratio: p95.against / p95.ours, unit: 'ms', samples: rounds },
      oursRange: [Math.min(...samples.ours), Math.max(...samples.ours)],
      againstRange: [Math.min(...samples.against), Math.max(...samples.against)],
      goal: null,
    },
  ]
}

export const pullLists: Bench = {
  name: 'pull-lists',
  about: [
    'One walk for 40 projects with 40 threads promised to each, of a shop’s 3,000 threads: what to lift out of which batch for which bag, with cloth, charts and notions, in walking order; against one joined statement that reads the promises with their batches, threads and places and makes nothing of them, by turns in the same run. Both figures are 95th percentiles.',
  ],
  run,
}
