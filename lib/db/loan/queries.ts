import 'server-only'
import type { ChartKind } from '#lib/chart/design'
import { copiesAtHome, mayLendChart } from '#lib/loan/chart-out'
import { byUrgency, type LoanKind, type LoanStanding, standingOf } from '#lib/loan/loan'
import { isOut } from '#lib/stock/batch'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import { type ThreadTag, threadTagColumns, threadTagOf } from '../thread/thread-tag'
import { readClashes } from './clashes'
import { readCopiesOut } from './hand-over'
import type { LoanClash } from './loan-refusal'

/** What a line of a loan is about. */
export type LentNamed =
  | { noun: 'chart'; id: string; title: string; chartKind: string; copies: number }
  | { noun: 'batch'; id: string; thread: ThreadTag; lot: string | null; hasPart: boolean; wholePutUps: number }
  | { noun: 'cloth'; id: string; label: string | null; name: string }
  | { noun: 'notion'; id: string; name: string; size: string | null }
  | { noun: 'project'; id: string; title: string }
  | { noun: 'text'; id: null; text: string }

export type LoanLineNamed = {
  id: string
  thing: LentNamed
  count: number
  backOn: string | null
  backNote: string | null
  /** Not back by this loan, and yet no longer with them: put somewhere by another way, or gone. */
  isElsewhere: boolean
}

export type LoanRow = {
  id: string
  kind: LoanKind
  place: PlaceTag
  owner: { id: string; name: string }
  reason: string
  fromOn: string
  dueOn: string | null
  closedOn: string | null
  priceMinor: number | null
  note: string | null
  who: string | null
  version: number
  project: { id: string; title: string } | null
  /** In the order they were set down. */
  lines: LoanLineNamed[]
  standing: LoanStanding
}

const project = { select: { id: true, design: { select: { title: true } } } } as const
const lying = { homePlaceId: true, currentPlaceId: true, goneAt: true } as const

const rowColumns = {
  id: true,
  kind: true,
  reason: true,
  fromOn: true,
  dueOn: true,
  closedOn: true,
  priceMinor: true,
  note: true,
  who: true,
  version: true,
  place: placeTagColumns,
  owner: { select: { id: true, name: true } },
  project,
} as const satisfies Prisma.LoanSelect

const lineColumns = {
  id: true,
  loanId: true,
  count: true,
  backOn: true,
  backNote: true,
  text: true,
  chart: { select: { id: true, title: true, kind: true, copies: true, ...lying } },
  batch: {
    select: {
      id: true,
      lot: true,
      wholePutUps: true,
      partCertainty: true,
      thread: { select: threadTagColumns },
      ...lying,
    },
  },
  clothPiece: { select: { id: true, label: true, name: true, ...lying } },
  notion: { select: { id: true, name: true, size: true, ...lying } },
  project: { select: { ...project.select, placeId: true } },
} as const satisfies Prisma.LoanLineSelect

type LineRow = Prisma.LoanLineGetPayload<{ select: typeof lineColumns }>
type Row = Prisma.LoanGetPayload<{ select: typeof rowColumns }>

function thingOf(row: LineRow): LentNamed {
  const { chart, batch, clothPiece, notion, project: work, text } = row
  if (chart) return { noun: 'chart', id: chart.id, title: chart.title, chartKind: chart.kind, copies: chart.copies }
  if (batch) {
    const { id, lot, wholePutUps, partCertainty } = batch
    return { noun: 'batch', id, thread: threadTagOf(batch.thread), lot, wholePutUps, hasPart: partCertainty !== 'none' }
  }
  if (clothPiece) return { noun: 'cloth', id: clothPiece.id, label: clothPiece.label, name: clothPiece.name }
  if (notion) return { noun: 'notion', id: notion.id, name: notion.name, size: notion.size }
  if (work) return { noun: 'project', id: work.id, title: work.design.title }
  return { noun: 'text', id: null, text: text ?? '' }
}

/** Some copies of a chart may be with others while it lies at home; everything else is where it is. */
function isElsewhere(row: LineRow, kind: string, placeId: string): boolean {
  if (row.backOn !== null) return false
  if (row.project) return row.project.placeId !== placeId
  const thing = row.chart ?? row.batch ?? row.clothPiece ?? row.notion
  if (!thing) return false
  if (thing.goneAt !== null) return true
  if (kind === 'borrow') return !isOut(thing)
  if (row.chart && row.chart.copies > 1) return false
  return thing.currentPlaceId !== placeId
}

/** Loans with their lines; the lines are read apart, so that no list is asked for with every id of another. */
async function withLines(rows: readonly Row[], today: string): Promise<LoanRow[]> {
  const lines = await database().prisma.loanLine.findMany({
    where: { loanId: { in: rows.map(({ id }) => id) } },
    select: lineColumns,
    orderBy: [{ loanId: 'asc' }, { position: 'asc' }],
  })
  return rows.map(({ project: work, place, kind, ...loan }) => ({
    ...loan,
    kind: kind as LoanKind,
    place: place as PlaceTag,
    project: work && { id: work.id, title: work.design.title },
    standing: standingOf(loan, today),
    lines: lines
      .filter(({ loanId }) => loanId === loan.id)
      .map((line) => ({
        id: line.id,
        thing: thingOf(line),
        count: line.count,
        backOn: line.backOn,
        backNote: line.backNote,
        isElsewhere: isElsewhere(line, kind, place.id),
      })),
  }))
}

export type LoanFilter = {
  /** Whose goods; for what is borrowed, who borrowed it. */
  ownerIds: readonly string[]
  state: 'open' | 'closed'
  kind?: LoanKind
  placeId?: string
  projectId?: string
  chartId?: string
}

const filterOf = ({ ownerIds, state, kind, placeId, projectId, chartId }: LoanFilter): Prisma.LoanWhereInput => ({
  ownerId: { in: [...ownerIds] },
  closedOn: state === 'open' ? null : { not: null },
  ...(kind && { kind }),
  ...(placeId && { placeId }),
  ...(projectId && { OR: [{ projectId }, { lines: { some: { projectId } } }] }),
  ...(chartId && { lines: { some: { chartId } } }),
})

/** Loans shown at once. */
export const loansPerPage = 100

/**
 * Loans: open ones by urgency, overdue first; closed ones by the day they were closed, the last first.
 *
 * @param today  yyyy-mm-dd
 */
export async function listLoans(
  filter: LoanFilter,
  today: string,
  page: { offset: number; limit: number } = { offset: 0, limit: loansPerPage },
): Promise<{ loans: LoanRow[]; total: number }> {
  const { prisma } = database()
  const all = await prisma.loan.findMany({
    where: filterOf(filter),
    select: { id: true, fromOn: true, dueOn: true, closedOn: true },
  })
  const ids = all
    .sort(byUrgency)
    .slice(page.offset, page.offset + page.limit)
    .map(({ id }) => id)
  const rows = await prisma.loan.findMany({ where: { id: { in: ids } }, select: rowColumns })
  return { loans: await withLines(rows.sort(byUrgency), today), total: all.length }
}

/** One loan, open or closed; null when there is none. */
export async function findLoan(loanId: string, today: string): Promise<LoanRow | null> {
  const row = await database().prisma.loan.findUnique({ where: { id: loanId }, select: rowColumns })
  if (!row) return null
  const [loan] = await withLines([row], today)
  return loan ?? null
}

/** With whom copies of a chart are, since when and till when. */
export type ChartLoan = Pick<LoanRow, 'id' | 'kind' | 'place' | 'fromOn' | 'dueOn' | 'reason' | 'standing'> & { count: number }

export async function listChartLoans(chartId: string, today: string): Promise<ChartLoan[]> {
  const lines = await database().prisma.loanLine.findMany({
    where: { chartId, backOn: null, loan: { closedOn: null } },
    select: {
      count: true,
      loan: {
        select: { id: true, kind: true, fromOn: true, dueOn: true, closedOn: true, reason: true, place: placeTagColumns },
      },
    },
    orderBy: { id: 'asc' },
  })
  return lines.map(({ count, loan: { closedOn, place, kind, ...loan } }) => ({
    ...loan,
    count,
    kind: kind as LoanKind,
    place: place as PlaceTag,
    standing: standingOf({ ...loan, closedOn }, today),
  }))
}

/** The answer to "can I lend this?". */
export type LendingAnswer = {
  chart: { id: string; title: string; kind: ChartKind; copies: number; version: number; owner: { id: string; name: string } }
  atHome: number
  /** null: it may be lent. */
  because: 'is-a-file' | 'no-home' | 'is-out' | 'not-so-many' | null
  /** Where it is, when it is out. */
  outAt: string | null
  /** Whether so many leave none at home, so that all its designs are out. */
  leavesNone: boolean
  /** Plans that want it before it is back; only of the last copy at home. */
  clashes: LoanClash[]
  loans: ChartLoan[]
  /** For a file: copies of the same title on paper, which may be lent. */
  onPaper: { id: string; title: string; ownerName: string; placeLabel: string | null }[]
}

/**
 * Whether copies of a chart may be lent, and what it would get in the way of.
 *
 * @param ask.untilOn  yyyy-mm-dd; null asks about no day: then plans are held against no end
 */
export async function askLending(
  ask: { chartId: string; count: number; fromOn: string; untilOn: string | null },
  today: string,
): Promise<LendingAnswer | null> {
  const { prisma } = database()
  const { chartId, count, fromOn, untilOn } = ask
  const row = await prisma.chart.findFirst({
    where: { id: chartId, goneAt: null },
    select: {
      id: true,
      title: true,
      titleKey: true,
      kind: true,
      copies: true,
      version: true,
      homePlaceId: true,
      currentPlaceId: true,
      currentPlace: { select: { label: true } },
      owner: { select: { id: true, name: true } },
    },
  })
  if (!row) return null
  const { titleKey, homePlaceId, currentPlaceId, currentPlace, ...chart } = row
  const outAt = isOut({ homePlaceId, currentPlaceId }) ? (currentPlace?.label ?? '') : null
  const lendable = {
    kind: chart.kind as ChartKind,
    copies: chart.copies,
    copiesOut: await readCopiesOut(prisma, chartId),
    awayAt: outAt,
    hasHome: homePlaceId !== null,
  }
  const may = mayLendChart(lendable, count)
  const leavesNone = may.ok && may.value.leavesNone
  const onPaper =
    chart.kind !== 'file'
      ? []
      : await prisma.chart.findMany({
          where: { titleKey, goneAt: null, kind: { not: 'file' } },
          select: {
            id: true,
            title: true,
            owner: { select: { name: true } },
            currentPlace: { select: { label: true } },
            homePlace: { select: { label: true } },
          },
          orderBy: { id: 'asc' },
          take: 10,
        })
  return {
    chart: { ...chart, kind: chart.kind as ChartKind },
    atHome: copiesAtHome(lendable),
    because: may.ok ? null : may.error.kind,
    outAt,
    leavesNone,
    clashes: leavesNone ? await readClashes(prisma, [{ chartId, fromOn, untilOn }]) : [],
    loans: await listChartLoans(chartId, today),
    onPaper: onPaper.map(({ id, title, owner, currentPlace: now, homePlace }) => ({
      id,
      title,
      ownerName: owner.name,
      placeLabel: now?.label ?? homePlace?.label ?? null,
    })),
  }
}

export type LoanOfThing = { loanId: string; dueOn: string | null; standing: LoanStanding }

/** Open loans of things lying somewhere, by what they are: "chart <id>", "thread <id>", "cloth <id>", "notion <id>". */
export async function readLoansOfThings(
  things: readonly { noun: 'thread' | 'cloth' | 'chart' | 'notion'; id: string }[],
  today: string,
): Promise<Map<string, LoanOfThing>> {
  const ids = (noun: string) => things.filter((thing) => thing.noun === noun).map(({ id }) => id)
  const lines = await database().prisma.loanLine.findMany({
    where: {
      backOn: null,
      loan: { closedOn: null },
      OR: [
        { chartId: { in: ids('chart') } },
        { batchId: { in: ids('thread') } },
        { clothPieceId: { in: ids('cloth') } },
        { notionId: { in: ids('notion') } },
      ],
    },
    select: {
      chartId: true,
      batchId: true,
      clothPieceId: true,
      notionId: true,
      loan: { select: { id: true, fromOn: true, dueOn: true, closedOn: true } },
    },
    orderBy: { id: 'asc' },
  })
  return new Map(
    lines.map(({ chartId, batchId, clothPieceId, notionId, loan }) => [
      chartId
        ? `chart ${chartId}`
        : batchId
          ? `thread ${batchId}`
          : clothPieceId
            ? `cloth ${clothPieceId}`
            : `notion ${notionId}`,
      { loanId: loan.id, dueOn: loan.dueOn, standing: standingOf(loan, today) },
    ]),
  )
}
