import 'server-only'
import { archiveLimits } from '#lib/archive/limits'
import { tablePart } from '#lib/archive/part-name'
import { type ArchiveRow, readRow } from '#lib/archive/read-row'
import type { ArchiveRefused } from '#lib/archive/refusal'
import type { ArchiveTable } from '#lib/archive/tables'
import { type OpenedArchive, PartAltered } from './open-archive'

const rowsAtATime = 2_000
const newline = 0x0a

/** A refusal found in the middle of reading; whoever called turns it back into one. */
export class ArchiveUnreadable extends Error {
  constructor(readonly refusal: ArchiveRefused) {
    super(`archive refused: ${refusal.kind}`)
  }
}

/**
 * The rows of a table, checked, some thousands at a time.
 *
 * @throws ArchiveUnreadable at the first row that is none, and at the end when there are more or fewer than the manifest tells of
 */
export async function* readTable(archive: OpenedArchive, table: ArchiveTable): AsyncGenerator<ArchiveRow[], void, void> {
  const path = tablePart(table.name)
  if (!archive.has(path)) return
  let some: ArchiveRow[] = []
  let line = 0
  for await (const text of linesOf(archive.read(path), path)) {
    line++
    const raw = archive.version.read(table.name, parse(text))
    if (raw === undefined) continue
    const row = readRow(table, raw)
    if (!row.ok) throw new ArchiveUnreadable({ kind: 'row-not-read', table: table.name, line, fault: row.error })
    some.push(row.value)
    if (some.length < rowsAtATime) continue
    yield some
    some = []
  }
  if (some.length > 0) yield some
  const told = archive.manifest.parts.find((part) => part.path === path)?.rows
  if (told !== line) throw new PartAltered(path)
}

async function* linesOf(chunks: AsyncIterable<Buffer>, path: string): AsyncGenerator<string, void, void> {
  let kept: Buffer[] = []
  let keptBytes = 0
  for await (const chunk of chunks) {
    let from = 0
    for (let at = chunk.indexOf(newline); at >= 0; at = chunk.indexOf(newline, from)) {
      kept.push(chunk.subarray(from, at))
      yield Buffer.concat(kept).toString('utf8')
      kept = []
      keptBytes = 0
      from = at + 1
    }
    kept.push(chunk.subarray(from))
    keptBytes += chunk.length - from
    if (keptBytes > archiveLimits.lineBytes) throw new ArchiveUnreadable({ kind: 'archive-too-large', path })
  }
  if (keptBytes > 0) yield Buffer.concat(kept).toString('utf8')
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
