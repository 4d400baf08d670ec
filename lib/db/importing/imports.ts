import 'server-only'
import type { ImportKind } from '#lib/importing/fields'
import { database } from '../client'
import type { ImportListed } from './import-service'

const columns = {
  id: true,
  kind: true,
  fileName: true,
  at: true,
  status: true,
  addedCount: true,
  changedCount: true,
  sameCount: true,
  refusedCount: true,
} as const

const listed = <Row extends { kind: string; status: string }>(row: Row) => ({
  ...row,
  kind: row.kind as ImportKind,
  status: row.status as ImportListed['status'],
})

/** Imports, newest first. */
export async function listImports(limit: number): Promise<ImportListed[]> {
  const rows = await database().prisma.importBatch.findMany({ select: columns, orderBy: { id: 'desc' }, take: limit })
  return rows.map(listed)
}

export async function findImport(id: string): Promise<ImportListed | null> {
  const row = await database().prisma.importBatch.findUnique({ where: { id }, select: columns })
  return row && listed(row)
}
