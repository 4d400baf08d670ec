import 'server-only'
import { createReadStream, createWriteStream } from 'node:fs'
import { mkdir, readdir, rename, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import { Readable, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { archiveLimits } from '#lib/archive/limits'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { dataFolder } from '../data-folder'
import { newId } from '../new-id'

const id = '[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}'
const nameShape = new RegExp(`^chart-larder-\\d{4}-\\d\\d-\\d\\d-${id}\\.zip$`)
const givenShape = new RegExp(`^${id}$`)

const day = 24 * 60 * 60_000
/** Archives that were made stay to be fetched for so long, those that were given for a day. */
export const daysKept = 7

/** Beside the uploads, not in them: an archive is no part of the collection. */
const madeFolder = () => path.join(dataFolder(), 'archives')
const givenFolder = () => path.join(dataFolder(), 'archives', 'given')

export type KeptArchive = { name: string; bytes: number; madeAt: Date }

/** The name and place of an archive about to be made; old ones are forgotten on the way. */
export async function newArchiveFile(now: Date): Promise<{ name: string; file: string }> {
  await mkdir(madeFolder(), { recursive: true })
  await forgetOlder(madeFolder(), daysKept * day, now)
  const name = `chart-larder-${now.toLocaleDateString('sv-SE')}-${newId()}.zip`
  return { name, file: archiveFileOf(name) }
}

export const archiveFileOf = (name: string): string => path.join(madeFolder(), name)

/** The archives that can be fetched, newest first. */
export async function listArchives(): Promise<KeptArchive[]> {
  const names = await readdir(madeFolder()).catch(() => [])
  const found = await Promise.all(names.filter((name) => nameShape.test(name)).map((name) => findArchive(name)))
  return found
    .flatMap((archive) => (archive ? [archive] : []))
    .sort((left, right) => right.madeAt.getTime() - left.madeAt.getTime() || (left.name < right.name ? 1 : -1))
}

/** @returns null when the name is not one of ours or the file is gone */
export async function findArchive(name: string): Promise<KeptArchive | null> {
  requireWhole()
  if (!nameShape.test(name)) return null
  const found = await stat(path.join(madeFolder(), name)).catch(() => null)
  return found && { name, bytes: found.size, madeAt: found.mtime }
}

/** The bytes of an archive that `findArchive` found, as fast as they are taken. */
export const archiveStream = (name: string): ReadableStream<Uint8Array> =>
  Readable.toWeb(createReadStream(path.join(madeFolder(), name))) as ReadableStream<Uint8Array>

export async function removeArchive(name: string): Promise<boolean> {
  if ((await findArchive(name)) === null) return false
  await rm(path.join(madeFolder(), name), { force: true })
  return true
}

export type GivenTooLarge = { kind: 'archive-too-large'; path: null }

/** Keep an archive that was given for a day, written as it comes, so that none of it has to fit into memory. */
export async function keepGiven(
  body: ReadableStream<Uint8Array>,
  now: Date,
): Promise<Result<{ givenId: string }, GivenTooLarge>> {
  requireWhole()
  await mkdir(givenFolder(), { recursive: true })
  await forgetOlder(givenFolder(), day, now)
  const givenId = newId()
  const file = path.join(givenFolder(), givenId)
  let bytes = 0
  let isTooLarge = false
  const counted = new Transform({
    transform(chunk: Buffer, _encoding, next) {
      bytes += chunk.length
      isTooLarge = bytes > archiveLimits.zipBytes
      next(isTooLarge ? new Error('too large') : null, chunk)
    },
  })
  try {
    await pipeline(Readable.fromWeb(body as Parameters<typeof Readable.fromWeb>[0]), counted, createWriteStream(`${file}.part`))
    await rename(`${file}.part`, file)
    return ok({ givenId })
  } catch (error) {
    await rm(`${file}.part`, { force: true })
    if (isTooLarge) return refused({ kind: 'archive-too-large', path: null })
    throw error
  }
}

/** @returns null when there is none, or its day is over */
export async function findGiven(givenId: string): Promise<{ file: string; bytes: number } | null> {
  requireWhole()
  if (!givenShape.test(givenId)) return null
  const file = path.join(givenFolder(), givenId)
  const found = await stat(file).catch(() => null)
  return found && { file, bytes: found.size }
}

export async function removeGiven(givenId: string): Promise<void> {
  const given = await findGiven(givenId)
  if (given) await rm(given.file, { force: true })
}

/** Half ones that nobody writes any more go too. */
async function forgetOlder(folder: string, ms: number, now: Date): Promise<void> {
  for (const name of await readdir(folder)) {
    const file = path.join(folder, name)
    const kept = await stat(file).catch(() => null)
    const most = name.endsWith('.part') ? Math.min(ms, day) : ms
    if (kept?.isFile() && now.getTime() - kept.mtimeMs > most) await rm(file, { force: true })
  }
}
