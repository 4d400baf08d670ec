import 'server-only'
import { isPeople, type PlaceKind } from '#lib/place/place'
import { isOut } from '#lib/stock/batch'
import { database } from '../client'
import { threadTagColumns, threadTagOf } from '../thread/thread-tag'
import type { LentNamed } from './queries'

/** A thing somebody means to hand over, as the form shows it. */
export type ThingToLend = {
  thing: Exclude<LentNamed, { noun: 'project' | 'text' }>
  version: number
  owner: { id: string; name: string }
  /** How many there are of it: copies, whole put-ups, pieces. */
  most: number
  placeLabel: string | null
  isOut: boolean
}

export type ThingIds = {
  charts: readonly string[]
  batches: readonly string[]
  cloth: readonly string[]
  notions: readonly string[]
}

const common = {
  id: true,
  version: true,
  homePlaceId: true,
  currentPlaceId: true,
  homePlace: { select: { label: true } },
  currentPlace: { select: { label: true } },
  owner: { select: { id: true, name: true } },
} as const

const byAge = { id: 'asc' } as const

type Common = {
  version: number
  homePlaceId: string | null
  currentPlaceId: string | null
  homePlace: { label: string } | null
  currentPlace: { label: string } | null
  owner: { id: string; name: string }
}

const seen = ({ version, owner, homePlace, currentPlace, ...lying }: Common) => ({
  version,
  owner,
  placeLabel: (currentPlace ?? homePlace)?.label ?? null,
  isOut: isOut(lying),
})

/** These things as they stand; what is gone is left out. */
export async function readThingsToLend(ids: ThingIds): Promise<ThingToLend[]> {
  const { prisma } = database()
  const these = (wanted: readonly string[]) => ({ where: { id: { in: [...wanted] }, goneAt: null }, orderBy: byAge })
  const [charts, batches, cloth, notions] = await Promise.all([
    prisma.chart.findMany({ ...these(ids.charts), select: { ...common, title: true, kind: true, copies: true } }),
    prisma.batch.findMany({
      ...these(ids.batches),
      select: { ...common, lot: true, wholePutUps: true, partCertainty: true, thread: { select: threadTagColumns } },
    }),
    prisma.clothPiece.findMany({ ...these(ids.cloth), select: { ...common, label: true, name: true } }),
    prisma.notion.findMany({ ...these(ids.notions), select: { ...common, name: true, size: true, count: true } }),
  ])
  return [
    ...charts.map((row) => ({
      ...seen(row),
      thing: { noun: 'chart' as const, id: row.id, title: row.title, chartKind: row.kind, copies: row.copies },
      most: row.copies,
    })),
    ...cloth.map((row) => ({
      ...seen(row),
      thing: { noun: 'cloth' as const, id: row.id, label: row.label, name: row.name },
      most: 1,
    })),
    ...batches.map((row) => ({
      ...seen(row),
      thing: {
        ...{ noun: 'batch' as const, id: row.id, thread: threadTagOf(row.thread), lot: row.lot },
        ...{ wholePutUps: row.wholePutUps, hasPart: row.partCertainty !== 'none' },
      },
      most: row.wholePutUps,
    })),
    ...notions.map((row) => ({
      ...seen(row),
      thing: { noun: 'notion' as const, id: row.id, name: row.name, size: row.size },
      most: row.count,
    })),
  ]
}

export type WorkToSend = {
  id: string
  version: number
  title: string
  status: string
  owner: { id: string; name: string }
  placeLabel: string | null
  /** Somebody has it already. */
  isAway: boolean
  /** What may go along: chart, cloth, thread and notions that lie in its bag or are its own, and are not with somebody. */
  goods: ThingToLend[]
}

/** A project with all that could go along when its work is sent away. */
export async function readWorkToSend(projectId: string): Promise<WorkToSend | null> {
  const { prisma } = database()
  const project = await prisma.project.findFirst({
    where: { id: projectId, goneAt: null },
    select: {
      id: true,
      version: true,
      status: true,
      placeId: true,
      clothPieceId: true,
      place: { select: { label: true, kind: true } },
      owner: { select: { id: true, name: true } },
      design: { select: { title: true, chart: { select: { id: true, kind: true, ownerId: true } } } },
    },
  })
  if (!project) return null
  const { placeId, design, owner } = project
  const inBag = { goneAt: null, ownerId: owner.id, currentPlaceId: placeId ?? '' }
  const forIt = { some: { projectId, kind: 'take' } }
  const [batches, notions, cloth] = await Promise.all([
    prisma.batch.findMany({
      where: { ...inBag, OR: [{ movements: forIt }, { promises: { some: { projectId } } }] },
      select: { id: true },
    }),
    prisma.notion.findMany({ where: { ...inBag, projectId }, select: { id: true } }),
    prisma.clothPiece.findMany({
      where: {
        goneAt: null,
        ownerId: owner.id,
        OR: [{ id: project.clothPieceId ?? '' }, { currentPlaceId: placeId ?? '', movements: forIt }],
      },
      select: { id: true },
    }),
  ])
  const ids = (rows: readonly { id: string }[]) => rows.map(({ id }) => id)
  const chart = design.chart.kind !== 'file' && design.chart.ownerId === owner.id ? [design.chart.id] : []
  const goods = await readThingsToLend({ charts: chart, batches: ids(batches), cloth: ids(cloth), notions: ids(notions) })
  return {
    ...{ id: project.id, version: project.version, status: project.status, owner, title: design.title },
    placeLabel: project.place?.label ?? null,
    isAway: project.place !== null && isPeople(project.place.kind as PlaceKind),
    goods: goods.filter(({ isOut, placeLabel }) => !isOut || placeLabel === project.place?.label),
  }
}
