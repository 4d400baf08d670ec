import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import { write } from '../write'
import type { Write } from '../write-gate'
import { eraseFile, storeFile } from './file-store'
import { type FiledThing, ownerOfThing, thingColumn } from './kept-thing'
import type { PreparedFile } from './prepare-file'

/** chart: the digital chart itself, for its owner's own use; receipt: what was paid for the thing. */
export const fileRoles = ['chart', 'receipt'] as const
export type FileRole = (typeof fileRoles)[number]

/** The same bytes that one owner has already. */
export type SameFile = { fileId: string; name: string; chartId: string | null; chartTitle: string | null }

export type KeepFileRefusal =
  | { kind: 'no-such-thing' }
  | { kind: 'only-charts' }
  /** It is kept with this very thing. */
  | { kind: 'kept-already'; file: SameFile }
  /** It is kept with something else, and nobody said that this is meant. */
  | { kind: 'kept-elsewhere'; file: SameFile }

type Input = {
  thing: FiledThing
  role: FileRole
  file: PreparedFile
  pages: number | null
  /** It is known that the same file is kept with something else. */
  isAnother: boolean
}

/** Keep a file with a thing, as it came; it is the owner's of the thing. One that was removed from it before comes back. */
export async function keepFile(input: Input): Promise<Result<{ fileId: string }, KeepFileRefusal>> {
  const fileName = await storeFile(input.file.bytes, input.file.mime)
  const erase = () => eraseFile(fileName)
  try {
    const result = await write<{ fileId: string; isNew: boolean }, KeepFileRefusal>((open) =>
      keepFileIn(open, { ...input, fileName }),
    )
    if (!result.ok) {
      await erase()
      return result
    }
    if (!result.value.isNew) await erase()
    return ok({ fileId: result.value.fileId })
  } catch (error) {
    await erase()
    throw error
  }
}

/**
 * The row of a file that lies in the data folder as `fileName`, as part of a larger write. With `isNew` false the same file was there,
 * removed, and stands again; `fileName` is then named by no row.
 */
export async function keepFileIn(
  { tx, at }: Pick<Write, 'tx' | 'at'>,
  { thing, role, file, pages, isAnother, fileName }: Input & { fileName: string },
): Promise<Result<{ fileId: string; isNew: boolean }, KeepFileRefusal>> {
  if (role === 'chart' && thing.noun !== 'chart') return refused({ kind: 'only-charts' })
  const ownerId = await ownerOfThing(tx, thing)
  if (ownerId === null) return refused({ kind: 'no-such-thing' })
  const here = { [thingColumn[thing.noun]]: thing.id }
  const held = await findSame(tx, { sha256: file.sha256, ownerId, role })
  const same = held.find((row) => row[thingColumn[thing.noun]] === thing.id)
  if (same && same.goneAt === null) return refused({ kind: 'kept-already', file: sameOf(same) })
  if (same) {
    await tx.keptFile.update({ where: { id: same.id }, data: { goneAt: null, ownerId, version: { increment: 1 } } })
    return ok({ fileId: same.id, isNew: false })
  }
  const elsewhere = held.find(({ goneAt }) => goneAt === null)
  if (elsewhere && !isAnother) return refused({ kind: 'kept-elsewhere', file: sameOf(elsewhere) })
  const id = newId()
  const { name, mime, sha256, bytes } = file
  await tx.keptFile.create({
    data: { id, role, ownerId, ...here, name, mime, sha256, bytes: bytes.length, pages, fileName, addedAt: at },
  })
  return ok({ fileId: id, isNew: true })
}

const sameColumns = {
  id: true,
  name: true,
  goneAt: true,
  chartId: true,
  clothPieceId: true,
  notionId: true,
  projectId: true,
  chart: { select: { title: true } },
} as const

const findSame = (tx: Transaction, where: { sha256: string; ownerId: string; role: FileRole }) =>
  tx.keptFile.findMany({ where, select: sameColumns, orderBy: { id: 'asc' }, take: 100 })

type SameRow = Awaited<ReturnType<typeof findSame>>[number]
const sameOf = ({ id, name, chartId, chart }: SameRow): SameFile => ({
  fileId: id,
  name,
  chartId,
  chartTitle: chart?.title ?? null,
})
