import 'server-only'
import { database } from '../client'

/** A change that can be taken back whole, without its steps. All kinds of them are one table; how the steps begin tells which kind one is. */
export type BulkEditHead = { id: string; at: Date; who: string | null; what: string; isUndone: boolean }

type StepsBegin = { stepsJson: { startsWith: string } }

const headColumns = { id: true, at: true, who: true, what: true, status: true } as const

const headOf = <Row extends { status: string }>({ status, ...row }: Row) => ({ ...row, isUndone: status === 'undone' })

/** Those of some kinds, latest first. */
export async function listHeads(kinds: StepsBegin | readonly StepsBegin[], limit: number): Promise<BulkEditHead[]> {
  const rows = await database().prisma.bulkEdit.findMany({
    where: { OR: [kinds].flat() },
    select: headColumns,
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: limit,
  })
  return rows.map(headOf)
}

/** One of a kind with its steps as they are kept, or null. */
export async function findWithSteps(id: string, kind: StepsBegin): Promise<(BulkEditHead & { stepsJson: string }) | null> {
  const row = await database().prisma.bulkEdit.findFirst({ where: { id, ...kind }, select: { ...headColumns, stepsJson: true } })
  return row && headOf(row)
}
