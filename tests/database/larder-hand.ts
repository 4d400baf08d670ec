import { database } from '#lib/db/client'
import { cutAgain, cutKits } from '#lib/db/kit-bag/cut-kits'
import { mergePlace } from '#lib/db/place/merge-place'
import { splitPlace } from '#lib/db/place/split-place'
import { undoPlaceChange } from '#lib/db/place/undo-place-change'
import { releaseProject } from '#lib/db/project/put-kit-back'
import { carryOut } from '#lib/db/walk/carry-out'
import { startPull } from '#lib/db/walk/start-pull'
import { tickLines } from '#lib/db/walk/tick-lines'

/** What one hand does over and over, until it is stopped. */
export type Errand = { kind: 'walk' | 'kits' | 'places'; projectId: string; placeId: string; intoId: string }

const who = 'Nell Oxtoby'

/** Pull for a project into its bag, and put all of it back. */
async function walk({ projectId }: Errand): Promise<void> {
  const { prisma } = database()
  const started = await startPull({ projectIds: [projectId], who })
  const open = await prisma.walk.findFirst({ where: { status: 'open' }, include: { lines: true }, orderBy: { id: 'asc' } })
  if (open) {
    const ticks = open.lines.map(({ id }) => ({ lineId: id, status: 'done' as const, tickedAt: new Date(), by: who }))
    await tickLines({ walkId: open.id, ticks })
    await carryOut({ walkId: open.id, bags: [{ projectId, label: 'K-02' }], who })
  }
  if (!started.ok) await releaseProject({ projectId, putBack: 'now' })
}

/** Cut what can be cut, then one cut after another anew. */
async function kits({ projectId }: Errand): Promise<void> {
  await cutKits({ projectId, by: who, acceptsLots: true })
  const lots = await database().prisma.kitLot.findMany({ where: { projectId }, orderBy: { id: 'asc' } })
  for (const { fromBag, threadId } of lots) await cutAgain({ projectId, bag: fromBag, threadId, by: who })
}

/** One drawer into another and out again, and a part of it into a place of its own and back. */
async function places({ placeId, intoId }: Errand): Promise<void> {
  const { prisma } = database()
  const done = await prisma.bulkEdit.findMany({ where: { status: 'done' }, orderBy: { id: 'asc' } })
  for (const { id } of done) await undoPlaceChange({ changeId: id })
  const place = await prisma.place.findUniqueOrThrow({ where: { id: placeId } })
  await mergePlace({ id: placeId, version: place.version, intoId, addsRoom: true, who })
  const into = await prisma.place.findUniqueOrThrow({ where: { id: intoId } })
  const batches = await prisma.batch.findMany({ where: { homePlaceId: intoId, goneAt: null }, orderBy: { id: 'asc' } })
  await splitPlace({
    ...{ id: intoId, version: into.version, way: 'beside', insideIds: [], who },
    place: { label: `${into.label} part`, name: null, kind: 'compartment' },
    things: batches.slice(0, 2).map(({ id, version }) => ({ noun: 'thread', id, version })),
  })
}

/** A process of its own: says when it is well at work and goes on until it is killed. */
process.once('message', async (errand: Errand) => {
  for (let round = 1; ; round++) {
    await { walk, kits, places }[errand.kind](errand)
    if (round === 1) process.send?.('at work')
  }
})
process.send?.('ready')
