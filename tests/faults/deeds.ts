import { copyFileSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { listYield } from '#lib/cloth/confirm-cut'
import { getAnswers } from '#lib/db/answers/get-answers'
import { writeNeedFile } from '#lib/db/answers/need-file'
import { newArchiveFile } from '#lib/db/archive/archive-files'
import { bringBack } from '#lib/db/archive/bring-back'
import { writeArchive } from '#lib/db/archive/write-archive'
import { restoreBackup } from '#lib/db/backup/restore-backup'
import { writeBackup } from '#lib/db/backup/write-backup'
import { database, openDatabase } from '#lib/db/client'
import { carryOutCut } from '#lib/db/cut-plan/carry-out-cut'
import { keepCutPlan } from '#lib/db/cut-plan/keep-cut-plan'
import { keepFile } from '#lib/db/file/keep-file'
import { prepareFile } from '#lib/db/file/prepare-file'
import { removeFile } from '#lib/db/file/remove-file'
import { bringIn } from '#lib/db/importing/bring-in'
import { stageFile } from '#lib/db/importing/stage-file'
import { undoImport } from '#lib/db/importing/undo-import'
import { cutAgain, cutKits } from '#lib/db/kit-bag/cut-kits'
import { mergeThreads } from '#lib/db/merging/merge-threads'
import { undoMerging } from '#lib/db/merging/undo-merging'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { mergePlace } from '#lib/db/place/merge-place'
import { splitPlace } from '#lib/db/place/split-place'
import { undoPlaceChange } from '#lib/db/place/undo-place-change'
import { releaseProject } from '#lib/db/project/put-kit-back'
import { setPhoto } from '#lib/db/project/set-photo'
import { readSnapshot } from '#lib/db/read-snapshot'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { splitBatch } from '#lib/db/stock/split-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { carryOut } from '#lib/db/walk/carry-out'
import { startPull } from '#lib/db/walk/start-pull'
import { tickLines } from '#lib/db/walk/tick-lines'
import type { Result } from '#lib/result'
import type { SmallWorld } from '../database/small-world'
import { fatQuarter } from '../unit/cloth/cut-layouts'
import { everything } from './acts'

/** What a hand needs to know of the world it works in. */
export type Given = {
  /** Files given to it: `threads.csv`, `photo.png`, `backup.zip`, `whole.zip`, `empty.db`. */
  folder: string
  kitsId: string
  wrensId: string
  placeId: string
  intoId: string
  /** One merged into the other, and again. */
  threadIds: readonly [kept: string, gone: string]
  ownerId: string
  chartId: string
  /** Pieces of 18 × 27 in, each to be cut once. */
  quarterIds: readonly string[]
  designId: string
  /** For two hands at once: what there is, and by what each chooses. */
  everything?: { world: SmallWorld; seed: string }
}

const who = 'Nell Oxtoby'
const dataFolder = () => process.env.LARDER_DATA as string
/** A refusal here is a fault of the test: then there is no deed to break off. */
function done<T, E>(result: Result<T, E>): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.error)}`)
  return result.value
}
const bytesOf = ({ folder }: Given, name: string) => readFileSync(path.join(folder, name))

/** Each does what people do, one write after another, without end; it yields between two writes. */
type Deed = (given: Given) => AsyncGenerator<void, void, void>

async function* bringing(given: Given) {
  for (;;) {
    const { stagedId } = await stageFile('threads.csv', bytesOf(given, 'threads.csv'))
    const { importId } = done(await bringIn(stagedId, { kind: 'threads' }))
    yield
    done(await undoImport(importId))
    yield
  }
}

/** Pull for a project into its bag, and put all of it back. */
async function* walking({ wrensId: projectId }: Given) {
  const { prisma } = database()
  for (;;) {
    done(await startPull({ projectIds: [projectId], who }))
    yield
    const open = await prisma.walk.findFirstOrThrow({
      where: { status: 'open' },
      include: { lines: true },
      orderBy: { id: 'asc' },
    })
    const ticks = open.lines.map(({ id }) => ({ lineId: id, status: 'done' as const, tickedAt: new Date(), by: who }))
    done(await tickLines({ walkId: open.id, ticks }))
    yield
    done(await carryOut({ walkId: open.id, bags: [{ projectId, label: 'K-02' }], who }))
    yield
    done(await releaseProject({ projectId, putBack: 'now' }))
    yield
  }
}

/** Cut what can be cut, then one cut after another anew. */
async function* kitting({ kitsId: projectId }: Given) {
  await cutKits({ projectId, by: who, acceptsLots: true })
  yield
  for (;;) {
    const lots = await database().prisma.kitLot.findMany({ where: { projectId }, orderBy: { id: 'asc' } })
    for (const { fromBag, threadId } of lots) {
      await cutAgain({ projectId, bag: fromBag, threadId, by: who })
      yield
    }
  }
}

/** One drawer into another and out again, and a part of it into a place of its own and back. */
async function* filing({ placeId, intoId }: Given) {
  const { prisma } = database()
  for (;;) {
    const place = await prisma.place.findUniqueOrThrow({ where: { id: placeId } })
    await mergePlace({ id: placeId, version: place.version, intoId, addsRoom: true, who })
    yield
    const into = await prisma.place.findUniqueOrThrow({ where: { id: intoId } })
    const batches = await prisma.batch.findMany({ where: { homePlaceId: intoId, goneAt: null }, orderBy: { id: 'asc' } })
    await splitPlace({
      ...{ id: intoId, version: into.version, way: 'beside', insideIds: [], who },
      place: { label: `${into.label} part`, name: null, kind: 'compartment' },
      things: batches.slice(0, 2).map(({ id, version }) => ({ noun: 'thread', id, version })),
    })
    yield
    const changes = await prisma.bulkEdit.findMany({ where: { status: 'done' }, orderBy: { id: 'desc' } })
    for (const { id } of changes) {
      await undoPlaceChange({ changeId: id })
      yield
    }
  }
}

async function* merging({ threadIds: [keptId, goneId] }: Given) {
  for (;;) {
    const { mergingId } = done(await mergeThreads({ keptId, goneId, who }))
    yield
    done(await undoMerging({ mergingId }))
    yield
  }
}

const inch = 25_400
const wishes = (
  [
    ['eleven', 11, 11, 1],
    ['eight', 8, 8, 2],
    ['six', 6, 12, 1],
  ] as const
).map(([id, width, height, copies]) => ({
  id,
  wish: {
    ...{ kind: 'size' as const, widthUm: width * inch, heightUm: height * inch, mayTurn: true, copies },
    ...{ priority: 'wanted' as const, worth: 1 },
  },
}))
async function* cutting({ quarterIds, designId }: Given) {
  for (const id of quarterIds) {
    const layout = { ...fatQuarter(), pieceId: id }
    const { planId } = done(
      await keepCutPlan({
        title: 'Autumn class',
        about: {
          asked: {
            wishes: wishes.map(({ wish }) => wish),
            pieceIds: null,
            objective: 'largest offcut',
            gapUm: 0,
            leastOffcutUm: 5 * inch,
            seed: 1,
          },
          wishes: wishes.map(({ id }) => ({ id, title: id, designId, projectId: null, fitsSome: true })),
        },
        request: {
          ...{ pieces: [{ id, widthUm: 18 * inch, heightUm: 27 * inch }], wishes: [], objective: 'largest offcut' },
          ...{ gapUm: 0, leastOffcutUm: 5 * inch, seed: 1 },
        },
        plan: {
          ...{ layouts: [layout], leftOut: [], value: 4, cutCount: 7, wasteUm2: 0, largestOffcutsUm2: 0 },
          ...{ valueBound: 4, bound: 0, isProved: true },
        },
      }),
    )
    yield
    const parts = listYield(layout).map(({ key, widthUm, heightUm }) => ({
      ...{ key, widthUm, heightUm, label: null, placeLabel: null },
    }))
    done(await carryOutCut({ planId, version: 0, pieces: [{ pieceId: id, parts }], note: null, who }))
    yield
  }
}

/** A photograph shown, and a file kept and taken off again. */
async function* picturing(given: Given) {
  const { wrensId: projectId, chartId } = given
  const photo = done(await preparePhoto(bytesOf(given, 'photo.png')))
  const file = done(await prepareFile('salt-road.pdf', bytesOf(given, 'photo.pdf')))
  for (;;) {
    const { version } = await database().prisma.project.findUniqueOrThrow({ where: { id: projectId } })
    done(await setPhoto({ projectId, version, photo }))
    yield
    const { fileId } = done(
      await keepFile({ thing: { noun: 'chart', id: chartId }, role: 'chart', file, pages: 1, isAnother: true }),
    )
    yield
    const kept = await database().prisma.keptFile.findUniqueOrThrow({ where: { id: fileId } })
    done(await removeFile({ id: fileId, version: kept.version }))
    yield
  }
}

/** A skein comes, a length is used, a row is parted, counted and carried to the bench. */
async function* handling({ threadIds: [threadId], ownerId, placeId, intoId, wrensId: projectId }: Given) {
  for (let turn = 0; ; turn++) {
    const { batchId } = done(
      await receiveThread({
        ...{ threadId, ownerId, lot: `turn ${turn}`, wholePutUps: 6, putUpStrandTenths: 480_000, partStrandTenths: 0 },
        ...{ partCertainty: 'none' as const, homePlaceId: intoId },
      }),
    )
    yield
    done(await recordUse({ batchId, strandTenths: 120_000, projectId }))
    yield
    done(await splitBatch({ batchId, wholePutUps: 2, takesPart: false }))
    yield
    done(await correctBatch({ batchId, wholePutUps: 1, partStrandTenths: 0, partCertainty: 'none' as const, reason: 'counted' }))
    yield
    done(await takeThread({ batchId, wholePutUps: 1, takesPart: false, toPlaceId: placeId }))
    yield
  }
}

async function* backingUp() {
  const folder = path.join(dataFolder(), 'backups')
  for (;;) {
    done(await writeBackup({ url: database().url, folder, kind: 'asked' }))
    yield
  }
}

async function* restoring({ folder }: Given) {
  for (;;) {
    done(
      await restoreBackup({
        url: database().url,
        file: path.join(folder, 'backup.zip'),
        folder: path.join(dataFolder(), 'backups'),
      }),
    )
    yield
  }
}

async function* takingOut() {
  for (;;) {
    const { file } = await newArchiveFile(new Date())
    await writeArchive(database(), { file })
    yield
  }
}

/** A collection into an empty database beside the one at work. */
async function* bringingBack({ folder }: Given) {
  for (let turn = 0; ; turn++) {
    const file = path.join(dataFolder(), `empty-${turn}.db`)
    copyFileSync(path.join(folder, 'empty.db'), file)
    const other = openDatabase(`file:${file}`)
    yield
    done(await bringBack(other, { file: path.join(folder, 'whole.zip') }))
    await other.prisma.$disconnect()
    yield
  }
}

async function* keepingNeeds() {
  const { url } = database()
  for (;;) {
    const { needs, revision, world } = await getAnswers()
    yield
    await readSnapshot(database(), (rows) => writeNeedFile(rows, url, world.settings, { index: needs, revision }))
    yield
  }
}

const doingEverything: Deed = ({ everything: chosen }) => {
  if (!chosen) throw new TypeError('doingEverything: no world was given')
  return everything(database().prisma, chosen.world, chosen.seed)
}

export const deeds = {
  'bringing in': bringing,
  'walks carried out': walking,
  'kits cut': kitting,
  'places merged and parted': filing,
  'doubles merged': merging,
  'a cut confirmed': cutting,
  'photographs and files': picturing,
  'stock handled': handling,
  'a backup': backingUp,
  'a restore': restoring,
  'an archive taken out': takingOut,
  'an archive brought back': bringingBack,
  'needs kept': keepingNeeds,
  everything: doingEverything,
} as const satisfies Record<string, Deed>
export type DeedName = keyof typeof deeds
