import 'server-only'
import { createHash } from 'node:crypto'
import { createWriteStream } from 'node:fs'
import { open, rename, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { ZipFile } from 'yazl'
import { describeFormat } from '#lib/archive/describe-format'
import { archiveFormat, type Manifest, type ManifestPart } from '#lib/archive/manifest'
import { csvPart, manifestName, readmeName, tablePart, uploadPart, uploadsOf } from '#lib/archive/part-name'
import { folderOfKind } from '#lib/archive/read-row'
import { archiveTables } from '#lib/archive/tables'
import { archiveVersion } from '#lib/archive/versions'
import { listUploads, uploadFolder } from '../backup/list-uploads'
import type { Database } from '../client'
import { readSnapshot } from '../read-snapshot'
import { collectionCsv } from './collection-csv'
import { countRows, tableRows } from './table-rows'

/** `of` is 0 where nobody knows yet how much there is. */
export type ArchiveProgress = { step: 'rows' | 'sheets' | 'files'; done: number; of: number }

export type WrittenArchive = {
  bytes: number
  rowCount: number
  /** Photos, small ones included, and kept files. */
  uploadCount: number
  /** Files that rows name and that are not on the disk. */
  missing: string[]
  revision: number
  madeAt: Date
  parts: ManifestPart[]
}

type Options = {
  /** Where the ZIP comes to be: written under another name first, so that half of one is never taken for a whole one. */
  file: string
  signal?: AbortSignal
  report?: (progress: ArchiveProgress) => void
}

/**
 * Everything there is, as one ZIP: every row as of one moment, whatever is written meanwhile, the sheets that Bring in reads, and the files
 * that rows name. Some thousands of rows are in memory at a time. The format is described in lib/archive/tables.ts.
 *
 * @throws the signal's reason when stopped, what the disk throws when it is full; nothing is left at `file` then
 */
export async function writeArchive(database: Database, { file, signal, report = () => {} }: Options): Promise<WrittenArchive> {
  const half = `${file}.part`
  try {
    const written = await readSnapshot(database, async (rows) => {
      const madeAt = new Date()
      const revision = await onlyNumber(rows('SELECT "number" FROM "Revision"'))
      const zip = new ZipFile()
      const closed = pipeline(zip.outputStream, createWriteStream(half, { flags: 'w' }), { signal })
      // Said again by whoever waits for it below; without this a failure in between would end the program.
      closed.catch(() => {})
      const failed = new Promise<never>((_, reject) => {
        zip.on('error', reject)
        closed.catch(reject)
      })
      failed.catch(() => {})
      const parts: ManifestPart[] = []

      /** One part after another; each is read only as fast as the ZIP is written. */
      const add = async (name: string, source: AsyncIterable<Buffer>, options: { compress: boolean; rows?: () => number }) => {
        signal?.throwIfAborted()
        const hash = createHash('sha256')
        let bytes = 0
        async function* hashed() {
          for await (const chunk of source) {
            signal?.throwIfAborted()
            hash.update(chunk)
            bytes += chunk.length
            yield chunk
          }
        }
        const stream = Readable.from(hashed(), { objectMode: false })
        const read = new Promise<void>((resolve, reject) => stream.once('end', resolve).once('error', reject))
        zip.addReadStream(stream, name, { compress: options.compress, mtime: madeAt })
        await Promise.race([read, failed])
        parts.push({ path: name, bytes, sha256: hash.digest('hex'), ...(options.rows && { rows: options.rows() }) })
      }

      await add(readmeName, one(describeFormat()), { compress: true })
      const counts = new Map<string, number>()
      for (const { name } of archiveTables) counts.set(name, await countRows(rows, name))
      const of = [...counts.values()].reduce((sum, count) => sum + count, 0)
      let rowCount = 0
      report({ step: 'rows', done: 0, of })
      /** Files that rows name, by their names in the archive. */
      const named = new Set<string>()
      for (const table of archiveTables) {
        const filed = Object.entries(table.columns).flatMap(([column, kind]) => {
          const folder = folderOfKind(kind)
          return folder ? [{ column, folder }] : []
        })
        let count = 0
        async function* lines() {
          for await (const some of tableRows(rows, table, database.engine)) {
            for (const { column, folder } of filed)
              for (const row of some) {
                const name = row[column]
                if (typeof name === 'string') for (const part of uploadsOf(folder, name)) named.add(part)
              }
            count += some.length
            rowCount += some.length
            yield Buffer.from(`${some.map((row) => JSON.stringify(row)).join('\n')}\n`)
            report({ step: 'rows', done: rowCount, of })
          }
        }
        await add(tablePart(table.name), lines(), { compress: true, rows: () => count })
      }

      for (const { noun, rowCount: most, lines } of await collectionCsv(rows, database.engine)) {
        let count = 0
        async function* counted() {
          for await (const { text, rows: some } of lines) {
            count += some
            report({ step: 'sheets', done: Math.min(count, most), of: most })
            yield Buffer.from(text)
          }
        }
        await add(csvPart(noun), counted(), { compress: true, rows: () => count })
      }

      // All there are, not only those that rows name: an undo may give a chart back the cover it had.
      const uploads = await listUploads()
      for (const [at, { folder, name }] of uploads.entries()) {
        const part = uploadPart(folder, name)
        // One that was taken off the disk meanwhile is missing, or was named by nobody.
        const handle = await open(path.join(uploadFolder(folder), name)).catch(() => null)
        if (handle) {
          await add(part, handle.createReadStream(), { compress: false })
          named.delete(part)
        }
        report({ step: 'files', done: at + 1, of: uploads.length })
      }

      const manifest: Manifest = {
        ...{ format: archiveFormat, version: archiveVersion, madeAt: madeAt.toISOString(), revision },
        ...{ parts, missing: [...named].sort() },
      }
      zip.addBuffer(Buffer.from(JSON.stringify(manifest, null, 1)), manifestName, { mtime: madeAt })
      zip.end()
      await closed
      const uploadCount = parts.filter(({ path: name }) => name.startsWith('uploads/')).length
      return { rowCount, uploadCount, missing: manifest.missing, revision, madeAt, parts }
    })
    await rename(half, file)
    return { ...written, bytes: (await stat(file)).size }
  } catch (error) {
    await rm(half, { force: true })
    throw signal?.aborted ? signal.reason : error
  }
}

async function* one(text: string): AsyncGenerator<Buffer, void, void> {
  yield Buffer.from(text)
}

async function onlyNumber(rows: AsyncIterable<unknown[][]>): Promise<number> {
  for await (const [first] of rows) return Number(first?.[0] ?? 0)
  return 0
}
