import 'server-only'
import { database } from '../client'
import { readStoredFile } from './file-store'
import type { FileRole, SameFile } from './keep-file'
import { type FiledThing, thingColumn } from './kept-thing'

/** A kept file as it is listed. */
export type FileListed = {
  id: string
  role: FileRole
  owner: { id: string; name: string }
  name: string
  mime: string
  bytes: number
  pages: number | null
  addedAt: Date
  isGone: boolean
  version: number
}

const listedColumns = {
  id: true,
  role: true,
  owner: { select: { id: true, name: true } },
  name: true,
  mime: true,
  bytes: true,
  pages: true,
  addedAt: true,
  goneAt: true,
  version: true,
} as const

type ListedRow = Omit<FileListed, 'role' | 'isGone'> & { role: string; goneAt: Date | null }
const listedOf = ({ role, goneAt, ...row }: ListedRow): FileListed => ({
  ...row,
  role: role as FileRole,
  isGone: goneAt !== null,
})

/** The files kept with a thing, oldest first; removed ones too, last, so that they can be brought back. */
export async function listFiles({ noun, id }: FiledThing): Promise<FileListed[]> {
  const rows = await database().prisma.keptFile.findMany({
    where: { [thingColumn[noun]]: id },
    select: listedColumns,
    orderBy: [{ addedAt: 'asc' }, { id: 'asc' }],
  })
  const files = rows.map(listedOf)
  return [...files.filter(({ isGone }) => !isGone), ...files.filter(({ isGone }) => isGone)]
}

/** One file, removed or not, for whoever looks after these owners' goods; null for anybody else's, as if it were not there. */
export async function findFileOf(id: string, ownerIds: readonly string[]): Promise<(FileListed & { fileName: string }) | null> {
  const row = await database().prisma.keptFile.findFirst({
    where: { id, ownerId: { in: [...ownerIds] } },
    select: { ...listedColumns, fileName: true },
  })
  if (!row) return null
  const { fileName, ...listed } = row
  return { ...listedOf(listed), fileName }
}

/** The bytes of a file that is not removed, only for its owner. */
export async function readFileOf(
  id: string,
  ownerIds: readonly string[],
): Promise<{ name: string; mime: string; bytes: Uint8Array<ArrayBuffer> } | null> {
  const file = await findFileOf(id, ownerIds)
  if (!file || file.isGone) return null
  const bytes = await readStoredFile(file.fileName)
  return bytes && { name: file.name, mime: file.mime, bytes }
}

/** The digital chart with these bytes that one of these owners has, if any; none of a chart that is gone. */
export async function findSameFile(sha256: string, ownerIds: readonly string[]): Promise<SameFile | null> {
  const row = await database().prisma.keptFile.findFirst({
    where: { sha256, ownerId: { in: [...ownerIds] }, role: 'chart', goneAt: null, chart: { goneAt: null } },
    select: { id: true, name: true, chartId: true, chart: { select: { title: true } } },
    orderBy: { id: 'asc' },
  })
  return row && { fileId: row.id, name: row.name, chartId: row.chartId, chartTitle: row.chart?.title ?? null }
}
