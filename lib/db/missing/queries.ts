import 'server-only'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import {
  chartColumns,
  clothColumns,
  notionColumns,
  readChart,
  readCloth,
  readNotion,
  readThread,
  type ThingHere,
  threadColumns,
} from '../place/contents'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'

export const missingStatuses = ['open', 'found', 'given up'] as const
export type MissingStatus = (typeof missingStatuses)[number]

/** A question where a thing may be. */
export type MissingQuestion = {
  id: string
  version: number
  status: MissingStatus
  thing: ThingHere
  ownerName: string
  askedAt: Date
  askedBy: string | null
  lastSeen: PlaceTag | null
  project: { id: string; title: string } | null
  walkId: string | null
  note: string | null
  settledAt: Date | null
  settledBy: string | null
}

const owner = { owner: { select: { name: true } } } as const

const columns = {
  ...{ id: true, version: true, status: true, askedAt: true, askedBy: true, walkId: true, note: true },
  ...{ settledAt: true, settledBy: true, lastSeenPlace: placeTagColumns },
  project: { select: { id: true, design: { select: { title: true } } } },
  batch: { select: { ...threadColumns, ...owner } },
  clothPiece: { select: { ...clothColumns, ...owner } },
  chart: { select: { ...chartColumns, ...owner } },
  notion: { select: { ...notionColumns, ...owner } },
} as const satisfies Prisma.MissingThingSelect

function toQuestion(row: Prisma.MissingThingGetPayload<{ select: typeof columns }>): MissingQuestion[] {
  const { batch, clothPiece, chart, notion, project, lastSeenPlace, status, ...question } = row
  const thing = batch
    ? readThread(batch)
    : clothPiece
      ? readCloth(clothPiece)
      : chart
        ? readChart(chart)
        : notion && readNotion(notion)
  if (!thing) return []
  return [
    {
      ...question,
      ...{ thing, status: status as MissingStatus, lastSeen: lastSeenPlace as PlaceTag | null },
      ownerName: (batch ?? clothPiece ?? chart ?? notion)?.owner.name ?? '',
      project: project && { id: project.id, title: project.design.title },
    },
  ]
}

const ofOwners = (ownerIds: readonly string[]): Prisma.MissingThingWhereInput => {
  const owned = { ownerId: { in: [...ownerIds] } }
  return { OR: [{ batch: owned }, { clothPiece: owned }, { chart: owned }, { notion: owned }] }
}

/** Open questions about these owners' goods. */
export const countMissing = (ownerIds: readonly string[]): Promise<number> =>
  database().prisma.missingThing.count({ where: { status: 'open', ...ofOwners(ownerIds) } })

/** Open questions, asked longest ago first; or those that were settled, the latest first. */
export async function listMissing(
  asked: { ownerIds: readonly string[]; isOpen: boolean },
  page: { offset: number; limit: number },
): Promise<{ questions: MissingQuestion[]; total: number }> {
  const { prisma } = database()
  const where = { status: asked.isOpen ? 'open' : { not: 'open' }, ...ofOwners(asked.ownerIds) }
  const [rows, total] = await Promise.all([
    prisma.missingThing.findMany({
      where,
      select: columns,
      orderBy: asked.isOpen ? [{ askedAt: 'asc' }, { id: 'asc' }] : [{ settledAt: 'desc' }, { id: 'desc' }],
      skip: page.offset,
      take: page.limit,
    }),
    prisma.missingThing.count({ where }),
  ])
  return { questions: rows.flatMap(toQuestion), total }
}

export async function findMissing(missingId: string): Promise<MissingQuestion | null> {
  const row = await database().prisma.missingThing.findUnique({ where: { id: missingId }, select: columns })
  return (row && toQuestion(row)[0]) ?? null
}

/** Open questions by the batch they are about, for these batches; and for other things by theirs. */
export async function openQuestionsOf(thingIds: readonly string[]): Promise<Map<string, string>> {
  const ids = { in: [...thingIds] }
  if (thingIds.length === 0 || thingIds.length > 200) {
    const all = await database().prisma.missingThing.findMany({ where: { status: 'open' }, select: idColumns, take: 5_000 })
    return byThing(all)
  }
  const OR = [{ batchId: ids }, { clothPieceId: ids }, { chartId: ids }, { notionId: ids }]
  return byThing(await database().prisma.missingThing.findMany({ where: { status: 'open', OR }, select: idColumns }))
}

const idColumns = { id: true, batchId: true, clothPieceId: true, chartId: true, notionId: true } as const

const byThing = (
  rows: readonly {
    id: string
    batchId: string | null
    clothPieceId: string | null
    chartId: string | null
    notionId: string | null
  }[],
) => new Map(rows.map((row) => [row.batchId ?? row.clothPieceId ?? row.chartId ?? row.notionId ?? '', row.id]))

export type ToReport = { thing: ThingHere; ownerName: string; projects: { id: string; title: string }[] }

/** A thing somebody is about to report missing, with the projects it may have been wanted for; null when it is gone. */
export async function findToReport(noun: ThingHere['noun'], id: string): Promise<ToReport | null> {
  const { prisma } = database()
  const where = { id, goneAt: null }
  const project = { select: { id: true, design: { select: { title: true } } } } as const
  const named = (row: { id: string; design: { title: string } } | null) => (row ? [{ id: row.id, title: row.design.title }] : [])
  if (noun === 'thread') {
    const row = await prisma.batch.findFirst({
      where,
      select: { ...threadColumns, ...owner, promises: { select: { project } } },
    })
    return (
      row && {
        ...{ thing: readThread(row), ownerName: row.owner.name },
        projects: row.promises.flatMap((promise) => named(promise.project)),
      }
    )
  }
  if (noun === 'cloth') {
    const row = await prisma.clothPiece.findFirst({
      where,
      select: { ...clothColumns, ...owner, keptForProject: project, projects: { where: { goneAt: null }, ...project, take: 5 } },
    })
    return (
      row && {
        ...{ thing: readCloth(row), ownerName: row.owner.name },
        projects: [...named(row.keptForProject), ...row.projects.flatMap(named)],
      }
    )
  }
  if (noun === 'chart') {
    const row = await prisma.chart.findFirst({ where, select: { ...chartColumns, ...owner } })
    return row && { thing: readChart(row), ownerName: row.owner.name, projects: [] }
  }
  const row = await prisma.notion.findFirst({ where, select: { ...notionColumns, ...owner, project } })
  return row && { thing: readNotion(row), ownerName: row.owner.name, projects: named(row.project) }
}
