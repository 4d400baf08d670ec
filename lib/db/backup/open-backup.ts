import 'server-only'
import { createHash } from 'node:crypto'
import { createWriteStream } from 'node:fs'
import { Transform, Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import yauzl from 'yauzl'
import { findPart } from '#lib/archive/part-name'
import type { BackupFault } from '#lib/backup/check'
import {
  type BackupManifest,
  backupVersion,
  databaseName,
  manifestHeadSchema,
  manifestName,
  manifestSchema,
  mostManifestBytes,
  readmeName,
} from '#lib/backup/manifest'
import { ok, type Result, refused } from '#lib/result'

/** Whether a name inside the ZIP is one that a backup has; anything else leads nowhere. */
const isPartName = (name: string): boolean => name === databaseName || findPart(name)?.kind === 'upload'

/** More entries than any collection has files. */
const mostParts = 2_000_000

export type OpenBackup = {
  manifest: BackupManifest
  /** What is wrong with the parts by their names and sizes alone. */
  faults: BackupFault[]
  /** Read one part to its end; into a file where one is given. @returns whether its bytes are those that were written */
  readPart(name: string, into: string | null, onBytes?: (bytes: number) => void): Promise<boolean>
  close(): void
}

/** Open a backup and read its manifest. Nothing else is read yet. */
export async function openBackup(file: string): Promise<Result<OpenBackup, BackupFault>> {
  const zip = await openZip(file)
  if (zip === null) return refused({ kind: 'not-a-backup' })
  const close = () => zip.close()
  try {
    const entries = await listEntries(zip)
    const entry = entries?.get(manifestName)
    if (!entries || !entry || entry.uncompressedSize > mostManifestBytes) return refuse(close, { kind: 'not-a-backup' })
    const json = await readText(zip, entry).then(JSON.parse, () => null)
    const head = manifestHeadSchema.safeParse(json)
    if (!head.success) return refuse(close, { kind: 'not-a-backup' })
    if (head.data.version > backupVersion) return refuse(close, { kind: 'newer', made: String(json.madeAt ?? '').slice(0, 40) })
    const read = manifestSchema.safeParse(json)
    if (!read.success) return refuse(close, { kind: 'not-a-backup' })
    const manifest = read.data
    const faults = faultsOfNames(manifest, entries)
    return ok({
      manifest,
      faults,
      close,
      readPart: async (name, into, onBytes = () => {}) => {
        const part = manifest.parts.find((known) => known.name === name)
        const found = entries.get(name)
        if (!part || !found || found.uncompressedSize !== part.bytes) return false
        return (await readThrough(zip, found, into, onBytes)) === part.sha256
      },
    })
  } catch {
    return refuse(close, { kind: 'not-a-backup' })
  }
}

function refuse(close: () => void, fault: BackupFault): Result<OpenBackup, BackupFault> {
  close()
  return refused(fault)
}

function faultsOfNames(manifest: BackupManifest, entries: ReadonlyMap<string, yauzl.Entry>): BackupFault[] {
  const faults: BackupFault[] = []
  const known = new Set<string>([manifestName, readmeName])
  for (const { name, bytes } of manifest.parts) {
    const entry = entries.get(name)
    if (!isPartName(name) || known.has(name)) faults.push({ kind: 'part-unknown', name })
    else if (!entry) faults.push({ kind: 'part-missing', name })
    else if (entry.uncompressedSize !== bytes) faults.push({ kind: 'part-altered', name })
    known.add(name)
  }
  for (const name of entries.keys()) if (!known.has(name)) faults.push({ kind: 'part-unknown', name })
  if (!manifest.parts.some(({ name }) => name === databaseName)) faults.push({ kind: 'part-missing', name: databaseName })
  return faults
}

const openZip = (file: string): Promise<yauzl.ZipFile | null> =>
  new Promise((resolve) => {
    yauzl.open(file, { lazyEntries: true, autoClose: false, validateEntrySizes: true, strictFileNames: true }, (error, zip) =>
      resolve(error ? null : zip),
    )
  })

/** Every entry by its name; null when one name stands twice, or there are too many, or the list does not read. */
function listEntries(zip: yauzl.ZipFile): Promise<Map<string, yauzl.Entry> | null> {
  return new Promise((resolve) => {
    const entries = new Map<string, yauzl.Entry>()
    zip.on('entry', (entry: yauzl.Entry) => {
      if (entries.has(entry.fileName) || entries.size >= mostParts) return resolve(null)
      entries.set(entry.fileName, entry)
      zip.readEntry()
    })
    zip.once('end', () => resolve(entries))
    zip.once('error', () => resolve(null))
    zip.readEntry()
  })
}

const openEntry = (zip: yauzl.ZipFile, entry: yauzl.Entry): Promise<NodeJS.ReadableStream> =>
  new Promise((resolve, reject) =>
    zip.openReadStream(entry, (error, stream) => (error ? reject(error) : resolve(stream as NodeJS.ReadableStream))),
  )

async function readText(zip: yauzl.ZipFile, entry: yauzl.Entry): Promise<string> {
  const chunks: Buffer[] = []
  for await (const chunk of await openEntry(zip, entry)) chunks.push(chunk as Buffer)
  return Buffer.concat(chunks).toString('utf8')
}

/** @returns the SHA-256 of what was read; null where the ZIP is torn there. An error of the disk written to is thrown. */
async function readThrough(
  zip: yauzl.ZipFile,
  entry: yauzl.Entry,
  into: string | null,
  onBytes: (bytes: number) => void,
): Promise<string | null> {
  const hash = createHash('sha256')
  const seen = new Transform({
    transform(chunk: Buffer, _, next) {
      hash.update(chunk)
      onBytes(chunk.length)
      next(null, chunk)
    },
  })
  const sink =
    into === null ? new Writable({ write: (_chunk, _encoding, next) => next() }) : createWriteStream(into, { flags: 'wx' })
  try {
    await pipeline(await openEntry(zip, entry), seen, sink)
    return hash.digest('hex')
  } catch (error) {
    // The disk's own words have a code; a ZIP that does not unpack has none, or zlib's.
    const code = String((error as NodeJS.ErrnoException).code ?? '')
    if (/^E[A-Z]+$/.test(code)) throw error
    return null
  }
}
