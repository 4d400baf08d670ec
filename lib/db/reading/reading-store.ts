import 'server-only'
import { mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises'
import path from 'node:path'
import type { KeyReview } from '#lib/chart/key-text/teach'
import type { ReadingRefusal } from '#lib/reader/page-reading'
import { database } from '../client'
import { dataFolder } from '../data-folder'
import type { KeptMime } from '../file/prepare-file'
import { newId } from '../new-id'
import { whileHolding } from './hold-file'

/** What became of a reading: on the way, refused, read and under review, or saved. */
export type ReadingState =
  | { kind: 'waiting' }
  /** A job nobody knows was cut short when the program stopped. */
  | { kind: 'reading'; jobId: string }
  | { kind: 'refused'; refusal: ReadingRefusal | { kind: 'no-text' } | { kind: 'text-too-long'; lines: number } }
  | { kind: 'read' }
  | { kind: 'saved'; changeId: string; chartId: string; designIds: string[]; lineCount: number; leftOut: number }

export type ReadingSource = { kind: 'text' } | { kind: 'pdf' | 'picture'; mime: KeptMime; bytes: number; sha256: string }

/** A page as it is shown beside what was read from it. */
export type ShownPage = {
  widthPt: number
  heightPt: number
  words: { text: string; box: { left: number; top: number; right: number; bottom: number } }[]
}

/** What a correction replaced. The lines themselves never change. */
export type ReviewBefore = Omit<KeyReview, 'lines'>

/** A key that is being read or reviewed: kept for a day after it was last touched, on the server, so that another device goes on with it. */
export type StagedReading = {
  id: string
  /** Raised by every change; whoever changes it says which they saw. */
  version: number
  /** Whose it is: nobody else is shown it. */
  ownerId: string
  /** ISO 8601. */
  madeAt: string
  /** Those that were given together, in their order. */
  groupId: string
  position: number
  /** The file's name, or how the text begins. */
  name: string
  source: ReadingSource
  /** The design whose key it is, where that was said. */
  designId: string | null
  state: ReadingState
  pageCount: number | null
  wasPhotographed: boolean
  hasCover: boolean
  review: KeyReview | null
  /** Reviews before each of the last corrections (`ReviewBefore`), as JSON, the last one last. */
  before: string[]
}

const keptMs = 24 * 60 * 60 * 1000
const idShape = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/

/** What is kept of a reading beside itself: its file, the picture of its first page, that picture level, the words of its pages. */
const parts = ['json', 'file', 'cover', 'straight', 'pages'] as const
type Part = (typeof parts)[number]

const folder = () => path.join(dataFolder(), 'uploads', 'to-read')
const fileOf = (id: string, part: Part) => path.join(folder(), `${id}.${part}`)

/** Keep a new reading, with the file it is read from. */
export async function stageReading(
  reading: Omit<StagedReading, 'id' | 'version' | 'madeAt'>,
  bytes: Uint8Array | null,
): Promise<StagedReading> {
  await mkdir(folder(), { recursive: true })
  await forgetOldReadings()
  const staged: StagedReading = { ...reading, id: newId(), version: 0, madeAt: new Date().toISOString() }
  if (bytes) await place(fileOf(staged.id, 'file'), bytes)
  await place(fileOf(staged.id, 'json'), JSON.stringify(staged))
  return staged
}

/** @returns null when there is no such reading, its day is over, or it is somebody else's. */
export async function findStagedReading(id: string, ownerIds: readonly string[]): Promise<StagedReading | null> {
  const staged = await readStaged(id)
  return staged && ownerIds.includes(staged.ownerId) ? staged : null
}

/** All of these owners, those given last first, and those given together in their order. */
export async function listStagedReadings(ownerIds: readonly string[] | 'all'): Promise<StagedReading[]> {
  const names = await readdir(folder()).catch(whereMissing([]))
  const ids = names.filter((name) => name.endsWith('.json')).map((name) => name.slice(0, -'.json'.length))
  const readings = (await Promise.all(ids.map(readStaged))).filter(
    (staged) => staged !== null && (ownerIds === 'all' || ownerIds.includes(staged.ownerId)),
  ) as StagedReading[]
  const startOf = new Map<string, string>()
  for (const { groupId, madeAt } of readings) {
    const start = startOf.get(groupId)
    if (start === undefined || madeAt > start) startOf.set(groupId, madeAt)
  }
  const lastFirst = (a: StagedReading, b: StagedReading) =>
    (startOf.get(b.groupId) ?? '').localeCompare(startOf.get(a.groupId) ?? '') || b.groupId.localeCompare(a.groupId)
  return readings.sort((a, b) => lastFirst(a, b) || a.position - b.position || (a.id < b.id ? -1 : 1))
}

/** The file it is read from; null for a text. */
export const readStagedBytes = (id: string): Promise<Uint8Array<ArrayBuffer> | null> => readPart(id, 'file')

/** The picture of its first page; null where there is none. */
export const readStagedCover = (id: string): Promise<Uint8Array<ArrayBuffer> | null> => readPart(id, 'cover')

/** A photographed page as its words' boxes stand in it: level and evenly lit; null where none was photographed. */
export const readStagedStraight = (id: string): Promise<Uint8Array<ArrayBuffer> | null> => readPart(id, 'straight')

export const keepStagedStraight = (id: string, picture: Uint8Array): Promise<void> => place(fileOf(id, 'straight'), picture)

export const keepStagedCover = (id: string, cover: Uint8Array): Promise<void> => place(fileOf(id, 'cover'), cover)

/** Its pages with their words; none for a text. */
export async function readStagedPages(id: string): Promise<ShownPage[]> {
  const bytes = await readPart(id, 'pages')
  return bytes ? (JSON.parse(new TextDecoder().decode(bytes)) as ShownPage[]) : []
}

export const keepStagedPages = (id: string, pages: readonly ShownPage[]): Promise<void> =>
  place(fileOf(id, 'pages'), JSON.stringify(pages))

// Actions, pages and routes are bundled apart; who is at a reading is known to all of them.
const shared = globalThis as unknown as { larderReadingsHeld?: Map<string, Promise<unknown>> }
shared.larderReadingsHeld ??= new Map()
const held = shared.larderReadingsHeld

/**
 * Change a reading, one change after another, whichever process of those that share the folder is at it. `change` gets it as it stands and gives it as it should be; its version is raised here. Null
 * leaves it as it is.
 *
 * @returns null when it is not there any more
 */
export function changeReading<T>(
  id: string,
  change: (staged: StagedReading) => Promise<{ next: StagedReading | null; value: T }>,
): Promise<{ staged: StagedReading; value: T } | null> {
  const alone = <R>(work: () => Promise<R>) =>
    database().engine === 'postgresql' && idShape.test(id) ? whileHolding(path.join(folder(), `${id}.held`), work) : work()
  const changed = async () => {
    const staged = await readStaged(id)
    if (!staged) return null
    const { next, value } = await change(staged)
    if (!next) return { staged, value }
    const raised = { ...next, version: staged.version + 1 }
    await place(fileOf(id, 'json'), JSON.stringify(raised))
    return { staged: raised, value }
  }
  const mine = (held.get(id) ?? Promise.resolve()).then(() => alone(changed))
  const settled = mine.then(
    () => {},
    () => {},
  )
  held.set(id, settled)
  void settled.then(() => {
    if (held.get(id) === settled) held.delete(id)
  })
  return mine
}

/** Throw a reading away, with its file. */
export async function dropReading(id: string): Promise<void> {
  if (!idShape.test(id)) return
  for (const part of parts) await rm(fileOf(id, part), { force: true })
}

async function readStaged(id: string): Promise<StagedReading | null> {
  const bytes = await readPart(id, 'json')
  // Nobody but this file writes there, and whole.
  return bytes && (JSON.parse(new TextDecoder().decode(bytes)) as StagedReading)
}

async function readPart(id: string, part: Part): Promise<Uint8Array<ArrayBuffer> | null> {
  if (!idShape.test(id)) return null
  const bytes = await readFile(fileOf(id, part)).catch(whereMissing(null))
  return bytes && new Uint8Array(bytes)
}

const whereMissing =
  <T>(value: T) =>
  (error: NodeJS.ErrnoException): T => {
    if (error.code === 'ENOENT') return value
    throw error
  }

async function place(file: string, content: string | Uint8Array): Promise<void> {
  const part = `${file}.${newId()}.part`
  await writeFile(part, content)
  await rename(part, file)
}

/** A reading's day begins anew with every change to it; its parts go with it. */
async function forgetOldReadings(): Promise<void> {
  const now = Date.now()
  for (const name of await readdir(folder())) {
    const file = path.join(folder(), name)
    const kept = await stat(file).catch(() => null)
    if (!kept || now - kept.mtimeMs <= keptMs) continue
    const id = name.slice(0, 36)
    if (name.endsWith('.json')) await dropReading(id)
    else if (!(await stat(fileOf(id, 'json')).catch(() => null))) await rm(file, { force: true })
  }
}
