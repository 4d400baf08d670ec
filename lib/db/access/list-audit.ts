import 'server-only'
import type { AuditKind } from '#lib/access/audit'
import { grouped } from '#lib/grouped'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type JournalLine, listMovements } from '../movement/list-movements'
import { requireRight } from './right'

/** One line of the log of who did what. */
export type AuditLine = {
  id: string
  at: Date
  kind: AuditKind
  /** What was done, in a word of its kind (lib/access/audit.ts). */
  what: string
  accountId: string | null
  /** As it was then; empty for the machine itself. */
  accountName: string
  address: string
  detail: Readonly<Record<string, unknown>>
  /** A change's number. */
  revision: number | null
}

export type AuditFilter = {
  /** Whose doing; null for what was nobody's known here. */
  accountId?: string | null | undefined
  /** From this moment, up to but without that one. */
  fromAt?: Date | undefined
  untilAt?: Date | undefined
}

const columns = {
  id: true,
  at: true,
  kind: true,
  what: true,
  accountId: true,
  accountName: true,
  address: true,
  detailJson: true,
  revision: true,
} as const

const whereOf = ({ accountId, fromAt, untilAt }: AuditFilter): Prisma.AuditEntryWhereInput => ({
  ...(accountId !== undefined && { accountId }),
  ...((fromAt ?? untilAt) && { at: { ...(fromAt && { gte: fromAt }), ...(untilAt && { lt: untilAt }) } }),
})

const latestFirst = [{ at: 'desc' }, { id: 'desc' }] as const satisfies Prisma.AuditEntryOrderByWithRelationInput[]

type Row = Omit<AuditLine, 'kind' | 'detail'> & { kind: string; detailJson: string }

const toLine = ({ detailJson, kind, ...row }: Row): AuditLine => ({
  ...row,
  kind: kind as AuditKind,
  detail: JSON.parse(detailJson) as Record<string, unknown>,
})

/** One page of the log, the latest first, and how many lines there are. For keepers. */
export async function listAudit(
  filter: AuditFilter,
  page: { offset: number; limit: number },
): Promise<{ lines: AuditLine[]; total: number }> {
  requireRight('keep')
  const { prisma } = database()
  const where = whereOf(filter)
  const [total, rows] = await Promise.all([
    prisma.auditEntry.count({ where }),
    prisma.auditEntry.findMany({ where, select: columns, orderBy: [...latestFirst], skip: page.offset, take: page.limit }),
  ])
  return { lines: rows.map(toLine), total }
}

/** All of the log, lot by lot, the latest first, however long it is. For keepers; asked once, before the first lot. */
export function readAudit(filter: AuditFilter, lot = 1_000): AsyncGenerator<AuditLine[]> {
  requireRight('keep')
  return readLots(filter, lot)
}

async function* readLots(filter: AuditFilter, lot: number): AsyncGenerator<AuditLine[]> {
  const where = whereOf(filter)
  for (let after: string | undefined; ; ) {
    const rows = await database().prisma.auditEntry.findMany({
      where,
      select: columns,
      orderBy: [...latestFirst],
      take: lot,
      ...(after !== undefined && { cursor: { id: after }, skip: 1 }),
    })
    if (rows.length > 0) yield rows.map(toLine)
    if (rows.length < lot) return
    after = rows.at(-1)?.id
  }
}

/** Which of these changes wrote something into the journal. */
export async function findJournalled(revisions: readonly number[]): Promise<Set<number>> {
  if (revisions.length === 0) return new Set()
  const rows = await database().prisma.movement.findMany({
    where: { revision: { in: [...revisions] } },
    select: { revision: true },
    distinct: ['revision'],
  })
  return new Set(rows.map(({ revision }) => revision))
}

/** What one change did. */
export type ChangeTold = {
  revision: number
  /** Whose change it was; null where nobody signed in, or the log does not reach back so far. */
  line: AuditLine | null
  /** The journal's lines of it, as many as `journalShown`. */
  journal: JournalLine[]
  hasMore: boolean
  /** How many of what were touched, for as long as that is kept. */
  touched: { noun: string; count: number }[]
}

export const journalShown = 100

/** Look a change up by its number; null where nothing is known of it. For keepers. */
export async function findChange(revision: number): Promise<ChangeTold | null> {
  requireRight('keep')
  const { prisma } = database()
  const [row, journal, touched] = await Promise.all([
    prisma.auditEntry.findFirst({ where: { revision }, select: columns, orderBy: { id: 'asc' } }),
    listMovements({ revision }, { limit: journalShown }),
    prisma.change.findMany({ where: { revision }, select: { noun: true } }),
  ])
  const lines = journal ?? []
  if (!row && lines.length === 0 && touched.length === 0) return null
  return {
    revision,
    line: row && toLine(row),
    journal: lines.slice(0, journalShown),
    hasMore: lines.length > journalShown,
    touched: [...grouped(touched, ({ noun }) => noun)].map(([noun, { length }]) => ({ noun, count: length })),
  }
}
