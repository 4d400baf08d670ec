import { createHash } from 'node:crypto'
import { createWriteStream } from 'node:fs'
import { pipeline } from 'node:stream/promises'
import { openPromise } from 'yauzl'
import { ZipFile } from 'yazl'

/** The parts of an archive, to be altered. */
export async function readParts(file: string): Promise<Map<string, Buffer>> {
  const zip = await openPromise(file)
  const parts = new Map<string, Buffer>()
  for await (const entry of zip.eachEntry()) {
    const chunks: Buffer[] = []
    for await (const chunk of await zip.openReadStreamPromise(entry)) chunks.push(chunk as Buffer)
    parts.set(entry.fileName, Buffer.concat(chunks))
  }
  return parts
}

/** Parts as a ZIP again, in their order; names may stand twice. */
export async function writeParts(file: string, parts: Iterable<[string, Buffer]>): Promise<void> {
  const zip = new ZipFile()
  for (const [name, bytes] of parts) zip.addBuffer(bytes, name)
  zip.end()
  await pipeline(zip.outputStream, createWriteStream(file))
}

type Told = { parts: { path: string; bytes: number; sha256: string; rows?: number }[] } & Record<string, unknown>

export const manifestOf = (parts: ReadonlyMap<string, Buffer>): Told => JSON.parse(String(parts.get('manifest.json')))

/** Make the manifest tell of the parts as they are now: an archive altered by somebody who knows how. */
export function tellAnew(parts: Map<string, Buffer>): Map<string, Buffer> {
  const manifest = manifestOf(parts)
  const told = [...parts].flatMap(([path, bytes]) => {
    if (path === 'manifest.json') return []
    const rows = path.startsWith('tables/') ? String(bytes).split('\n').length - 1 : undefined
    return [
      {
        path,
        bytes: bytes.length,
        sha256: createHash('sha256').update(bytes).digest('hex'),
        ...(rows !== undefined && { rows }),
      },
    ]
  })
  parts.set('manifest.json', Buffer.from(JSON.stringify({ ...manifest, parts: told })))
  return parts
}

/** Some rows of a table changed by hand. */
export function changeRows(
  parts: Map<string, Buffer>,
  table: string,
  change: (rows: Record<string, unknown>[]) => Record<string, unknown>[],
): Map<string, Buffer> {
  const name = `tables/${table}.jsonl`
  const rows = String(parts.get(name)).split('\n').filter(Boolean)
  const changed = change(rows.map((row) => JSON.parse(row)))
  return parts.set(name, Buffer.from(changed.map((row) => `${JSON.stringify(row)}\n`).join('')))
}
