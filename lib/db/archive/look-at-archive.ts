import 'server-only'
import { findPart } from '#lib/archive/part-name'
import type { ArchiveRefused } from '#lib/archive/refusal'
import { ok, type Result } from '#lib/result'
import { openArchive } from './open-archive'

export type ArchiveSummary = {
  madeAt: Date
  version: number
  rowCount: number
  uploadCount: number
  /** Files that rows name and that were not on the disk when it was made. */
  missingCount: number
  /** Rows by table, those that have any. */
  tables: { table: string; count: number }[]
}

/** What an archive says of itself; its rows are not read yet. */
export async function lookAtArchive(file: string): Promise<Result<ArchiveSummary, ArchiveRefused>> {
  const opened = await openArchive(file)
  if (!opened.ok) return opened
  const { manifest, close } = opened.value
  close()
  const tables = manifest.parts.flatMap(({ path, rows = 0 }) => {
    const part = findPart(path)
    return part?.kind === 'table' && rows > 0 ? [{ table: part.table, count: rows }] : []
  })
  return ok({
    ...{ madeAt: new Date(manifest.madeAt), version: manifest.version, tables },
    rowCount: tables.reduce((sum, { count }) => sum + count, 0),
    uploadCount: manifest.parts.filter(({ path }) => findPart(path)?.kind === 'upload').length,
    missingCount: manifest.missing.length,
  })
}
