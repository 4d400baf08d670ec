import 'server-only'
import { createHash } from 'node:crypto'
import { stat } from 'node:fs/promises'
import { crc32 } from 'node:zlib'
import { type Entry, openPromise, type ZipFile } from 'yauzl'
import { archiveLimits } from '#lib/archive/limits'
import { type Manifest, type ManifestPart, manifestHeadSchema, manifestSchema } from '#lib/archive/manifest'
import { findPart, manifestName, tablePart } from '#lib/archive/part-name'
import type { ArchiveRefused } from '#lib/archive/refusal'
import { archiveTables } from '#lib/archive/tables'
import { readerOf, type VersionReader } from '#lib/archive/versions'
import { ok, type Result, refused } from '#lib/result'

/** An archive whose list of parts is sound: every part is known, there once, and of a size that can be. Close it when done. */
export type OpenedArchive = {
  manifest: Manifest
  version: VersionReader
  /** The bytes of a part, and at their end a throw of `PartAltered` when they are not those the manifest tells of. */
  read: (path: string) => AsyncGenerator<Buffer, void, void>
  has: (path: string) => boolean
  close: () => void
}

/** Bytes of a part are not what they should be. */
export class PartAltered extends Error {
  constructor(readonly path: string) {
    super(`the part ${path} was altered`)
  }
}

/** Open a ZIP and hold its list of parts against its manifest; no row is read yet. */
export async function openArchive(file: string): Promise<Result<OpenedArchive, ArchiveRefused>> {
  const { size } = await stat(file)
  if (size > archiveLimits.zipBytes) return refused({ kind: 'archive-too-large', path: null })
  let zip: ZipFile
  try {
    zip = await openPromise(file, { autoClose: false, strictFileNames: true, validateEntrySizes: true })
  } catch {
    return refused({ kind: (await looksLikeZip(file)) ? 'archive-torn' : 'not-an-archive' })
  }
  const opened = await readList(zip, size).catch((): Result<never, ArchiveRefused> => refused({ kind: 'archive-torn' }))
  if (!opened.ok) zip.close()
  return opened
}

async function readList(zip: ZipFile, zipBytes: number): Promise<Result<OpenedArchive, ArchiveRefused>> {
  const entries = new Map<string, Entry>()
  let packed = 0
  let unpacked = 0
  try {
    for await (const entry of zip.eachEntry()) {
      const { fileName, compressedSize, uncompressedSize } = entry
      if (entries.has(fileName) || findPart(fileName) === null) return refused({ kind: 'part-unknown', path: shown(fileName) })
      entries.set(fileName, entry)
      packed += compressedSize
      unpacked += uncompressedSize
      const isSwollen = uncompressedSize > archiveLimits.ratioFromBytes && uncompressedSize > compressedSize * archiveLimits.ratio
      const most = fileName.startsWith('uploads/') ? archiveLimits.uploadBytes : archiveLimits.unpackedBytes
      // Parts that share their bytes would add up to more than the file has.
      if (isSwollen || uncompressedSize > most || packed > zipBytes || unpacked > archiveLimits.unpackedBytes)
        return refused({ kind: 'archive-too-large', path: fileName })
      if (entries.size > archiveLimits.parts) return refused({ kind: 'archive-too-large', path: null })
    }
  } catch (error) {
    // The reader itself refuses names that lead out of their folder.
    const named = /(?:invalid relative path|absolute path|invalid characters in fileName): (.*)/.exec(
      String((error as Error).message),
    )
    return refused(named ? { kind: 'part-unknown', path: shown(named[1] ?? '') } : { kind: 'archive-torn' })
  }

  const entry = entries.get(manifestName)
  if (!entry) return refused({ kind: 'not-an-archive' })
  if (entry.uncompressedSize > archiveLimits.manifestBytes) return refused({ kind: 'archive-too-large', path: manifestName })
  const text = await wholeText(zip, entry)
  if (text === null) return refused({ kind: 'part-altered', path: manifestName })
  const raw = parseJson(text)
  const head = manifestHeadSchema.safeParse(raw)
  if (!head.success) return refused({ kind: 'not-an-archive' })
  const version = readerOf(head.data.version)
  if (!version.ok) return version
  const read = manifestSchema.safeParse(raw)
  if (!read.success) return refused({ kind: 'part-altered', path: manifestName })
  const manifest = read.data

  const told = new Map<string, ManifestPart>()
  for (const part of manifest.parts) {
    if (told.has(part.path) || findPart(part.path) === null || part.path === manifestName)
      return refused({ kind: 'part-unknown', path: shown(part.path) })
    told.set(part.path, part)
    const found = entries.get(part.path)
    if (!found) return refused({ kind: 'part-missing', path: part.path })
    if (found.uncompressedSize !== part.bytes) return refused({ kind: 'part-altered', path: part.path })
  }
  for (const path of entries.keys())
    if (path !== manifestName && !told.has(path)) return refused({ kind: 'part-unknown', path: shown(path) })
  for (const { name } of archiveTables)
    if (version.value.has(name) && !told.has(tablePart(name))) return refused({ kind: 'part-missing', path: tablePart(name) })

  return ok({
    ...{ manifest, version: version.value, has: (path) => told.has(path), close: () => zip.close() },
    read: (path) => readPart(zip, entries.get(path) as Entry, told.get(path) as ManifestPart),
  })
}

async function* readPart(zip: ZipFile, entry: Entry, { path, sha256, bytes }: ManifestPart): AsyncGenerator<Buffer, void, void> {
  const hash = createHash('sha256')
  let count = 0
  try {
    for await (const chunk of (await zip.openReadStreamPromise(entry)) as AsyncIterable<Buffer>) {
      hash.update(chunk)
      count += chunk.length
      yield chunk
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).syscall) throw error
    throw new PartAltered(path)
  }
  if (count !== bytes || hash.digest('hex') !== sha256) throw new PartAltered(path)
}

/** The text of a small part; null when it is broken or not what the ZIP itself says of it. */
async function wholeText(zip: ZipFile, entry: Entry): Promise<string | null> {
  try {
    const chunks: Buffer[] = []
    for await (const chunk of (await zip.openReadStreamPromise(entry)) as AsyncIterable<Buffer>) chunks.push(chunk)
    const bytes = Buffer.concat(chunks)
    return crc32(bytes) === entry.crc32 ? new TextDecoder('utf-8', { fatal: true }).decode(bytes) : null
  } catch {
    return null
  }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

async function looksLikeZip(file: string): Promise<boolean> {
  const { open } = await import('node:fs/promises')
  const handle = await open(file)
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(4), 0, 4, 0)
    return bytesRead === 4 && buffer.readUInt32LE() === 0x04034b50
  } finally {
    await handle.close()
  }
}

/** A name from a file, as it may be shown. */
const shown = (name: string): string => name.replace(/\p{Cc}/gu, '').slice(0, 200)
