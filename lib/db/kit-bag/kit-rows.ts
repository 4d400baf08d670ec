import 'server-only'
import type { BagStatus } from '#lib/project/kit/bag-status'
import type { MarkStatus } from '#lib/project/kit/check'
import { linesOfKit, type MasterLine, type MasterList } from '#lib/project/kit/master-list'
import { bagsWithCut, type KitLot } from '#lib/project/kit/record'
import type { Transaction } from '../client'
import type { Prisma } from '../generated/sqlite/client'

const columns = {
  id: true,
  number: true,
  isSpare: true,
  status: true,
  packedAt: true,
  packedBy: true,
  checkedAt: true,
  checkedBy: true,
  sealedAt: true,
  sealedBy: true,
  soldAt: true,
  soldTo: true,
  note: true,
  version: true,
} as const satisfies Prisma.KitBagSelect

type Row = Prisma.KitBagGetPayload<{ select: typeof columns }>

export type BagMark = { key: string; status: MarkStatus; at: Date; who: string | null; note: string | null }

export type KitBagRow = Omit<Row, 'status'> & { status: BagStatus; marks: BagMark[] }

/** A line of the batch record as it is kept. */
export type KitLotRow = KitLot & { id: string; at: Date; who: string | null }

/** The bags a project has rows for, by number, each with its marks. */
export async function readBagRows(tx: Transaction, projectId: string): Promise<KitBagRow[]> {
  const rows = await tx.kitBag.findMany({ where: { projectId }, select: columns, orderBy: { number: 'asc' } })
  // Not as a relation of the bags: that is asked for with every bag's id, and SQLite takes no more than 999 of them.
  const marks = await tx.kitBagCheck.findMany({
    where: { bag: { projectId } },
    select: { bagId: true, item: true, status: true, at: true, who: true, note: true },
    orderBy: { id: 'asc' },
  })
  const byBag = new Map<string, BagMark[]>()
  for (const { bagId, item, status, ...mark } of marks) {
    const own = byBag.get(bagId) ?? []
    own.push({ key: item, status: status as MarkStatus, ...mark })
    byBag.set(bagId, own)
  }
  return rows.map((row) => ({ ...row, status: row.status as BagStatus, marks: byBag.get(row.id) ?? [] }))
}

export const readLotRows = (tx: Transaction, projectId: string): Promise<KitLotRow[]> =>
  tx.kitLot.findMany({
    where: { projectId },
    select: { id: true, threadId: true, batchId: true, lot: true, fromBag: true, toBag: true, at: true, who: true },
    orderBy: [{ fromBag: 'asc' }, { id: 'asc' }],
  })

/** What one bag is packed by, and of that the threads no cut is on record of. */
export function linesOfBag(
  master: Pick<MasterList, 'lines'>,
  lots: readonly KitLot[],
  bag: { number: number; isSpare: boolean; status: BagStatus },
): { lines: MasterLine[]; keys: string[]; uncut: string[] } {
  const lines = linesOfKit(master, { isSpare: bag.isSpare, isSold: bag.status === 'sold' })
  const uncut = lines.filter(
    (line) => line.kind === 'thread' && line.perKit.strandTenths > 0 && !bagsWithCut(lots, line.threadId).has(bag.number),
  )
  return { lines, keys: lines.map(({ key }) => key), uncut: uncut.map(({ key }) => key) }
}
