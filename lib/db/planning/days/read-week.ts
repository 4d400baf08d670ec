import 'server-only'
import { listOccasions, type OccasionDay, occasionDays } from '#lib/planning/days/occasions'
import { overlapOf, sumWeek, type WeekMovement, type WeekSums, weekAround } from '#lib/planning/days/week'
import { openStatuses } from '#lib/project/life-cycle'
import { addDays, calendarDay } from '#lib/quantity/day'
import type { MovementKind } from '#lib/stock/stock-change'
import { getAnswers } from '../../answers/get-answers'
import { timestamp } from '../../bulk-insert'
import { number, text, textOrNull } from '../../cells'
import { database } from '../../client'
import { readSnapshot } from '../../read-snapshot'
import { readOccasionWorld } from './occasions'
import { readStartBys, readWorksUnderWay } from './read-today'
import { listTimesAway } from './times-away'

type Span = { fromOn: string; toOn: string }
type Work = { id: string; title: string }

export type Week = {
  /** The last of the seven days told of, yyyy-mm-dd. */
  day: string
  past: Span & {
    stitched: (Work & { stitches: number; minutes: number; days: number })[]
    started: (Work & { on: string })[]
    finished: (Work & { on: string; quantity: number })[]
    sums: WeekSums
  }
  next: Span & {
    /** In the order of their days. */
    due: (Work & { on: string })[]
    startBy: (Work & { on: string })[]
    loans: { id: string; label: string; kind: string; on: string }[]
    parts: (Work & { name: string; on: string })[]
    orders: { id: string; threadId: string; threadName: string; putUps: number; on: string }[]
    away: (Span & { id: string; ownerName: string; what: string | null })[]
    /** Feasts of the country, and days these owners keep. */
    occasions: OccasionDay[]
  }
}

const byDay = (a: { on: string; id: string }, b: { on: string; id: string }): number =>
  a.on < b.on ? -1 : a.on > b.on ? 1 : a.id < b.id ? -1 : 1

/**
 * What happened in the seven days up to a day, and what comes in the seven after it.
 *
 * @param today  what must be started is reckoned from it
 */
export async function readWeek(asked: { ownerIds: readonly string[]; day: string; today: string }): Promise<Week> {
  const { prisma } = database()
  const { ownerIds, day, today } = asked
  const { past, next } = weekAround(day)
  const own = { in: [...ownerIds] }
  const project = { ownerId: own, goneAt: null }
  const within = { gte: past.fromOn, lte: past.toOn }
  const ahead = { gte: next.fromOn, lte: next.toOn }
  const answers = await getAnswers()
  const { designs, projects, threads, lines, places } = answers.world
  const titleOf = (projectId: string) => designs.get(projects.get(projectId)?.designId ?? '')?.design.title ?? ''
  const work = (id: string): Work => ({ id, title: titleOf(id) })
  const [logged, dated, movements, underWay, loans, parts, orders, timesAway, occasions] = await Promise.all([
    prisma.workEntry.groupBy({
      by: ['projectId', 'day'],
      where: { goneAt: null, day: within, project },
      _sum: { stitches: true, minutes: true },
      orderBy: [{ projectId: 'asc' }, { day: 'asc' }],
    }),
    prisma.project.findMany({
      where: { ...project, OR: [{ startedOn: within }, { finishedOn: within }] },
      select: { id: true, startedOn: true, finishedOn: true, quantity: true, status: true },
      orderBy: { id: 'asc' },
    }),
    readMovements(ownerIds, past),
    readWorksUnderWay(ownerIds),
    prisma.loan.findMany({
      where: { ownerId: own, closedOn: null, dueOn: ahead },
      select: { id: true, kind: true, dueOn: true, placeId: true },
    }),
    prisma.stitchAlongPart.findMany({
      where: { doneOn: null, dueOn: ahead, project: { ...project, status: { in: [...openStatuses, 'wanted'] } } },
      select: { id: true, projectId: true, name: true, dueOn: true },
    }),
    prisma.threadOrder.findMany({
      where: { ownerId: own, closedAt: null, expectedOn: ahead },
      select: { id: true, threadId: true, putUps: true, receivedPutUps: true, expectedOn: true },
    }),
    listTimesAway(ownerIds),
    readOccasionWorld(ownerIds),
  ])
  const stitched = new Map<string, Week['past']['stitched'][number]>()
  for (const { projectId, _sum } of logged) {
    const sums = stitched.get(projectId) ?? { ...work(projectId), stitches: 0, minutes: 0, days: 0 }
    sums.stitches += _sum.stitches ?? 0
    sums.minutes += _sum.minutes ?? 0
    sums.days++
    stitched.set(projectId, sums)
  }
  const isWithin = (on: string | null): on is string => on !== null && past.fromOn <= on && on <= past.toOn
  const isAhead = (on: string | null | undefined): on is string => !!on && next.fromOn <= on && on <= next.toOn
  const startBys = await readStartBys(underWay, today)
  return {
    day,
    past: {
      ...past,
      stitched: [...stitched.values()].sort((a, b) => b.stitches - a.stitches || b.minutes - a.minutes || (a.id < b.id ? -1 : 1)),
      started: dated.flatMap(({ id, startedOn }) => (isWithin(startedOn) ? [{ ...work(id), on: startedOn }] : [])).sort(byDay),
      finished: dated
        .flatMap(({ id, finishedOn, quantity, status }) =>
          status === 'finished' && isWithin(finishedOn) ? [{ ...work(id), on: finishedOn, quantity }] : [],
        )
        .sort(byDay),
      sums: sumWeek(movements),
    },
    next: {
      ...next,
      due: underWay.flatMap(({ id, dueOn }) => (isAhead(dueOn) ? [{ ...work(id), on: dueOn }] : [])).sort(byDay),
      startBy: underWay
        .flatMap(({ id }) => {
          const on = startBys.get(id)
          return isAhead(on) ? [{ ...work(id), on }] : []
        })
        .sort(byDay),
      loans: loans
        .map(({ id, kind, dueOn, placeId }) => ({ id, kind, label: places.get(placeId)?.label ?? '', on: dueOn as string }))
        .sort(byDay),
      parts: parts
        .map(({ id, projectId, name, dueOn }) => ({ part: id, ...work(projectId), name, on: dueOn as string }))
        .sort((a, b) => byDay({ on: a.on, id: a.part }, { on: b.on, id: b.part }))
        .map(({ part: _, ...rest }) => rest),
      orders: orders
        .map(({ id, threadId, putUps, receivedPutUps, expectedOn }) => {
          const thread = threads.get(threadId)
          const threadName = [lines.get(thread?.lineId ?? '')?.makerName, thread?.code, thread?.name].filter(Boolean).join(' ')
          return { id, threadId, threadName, putUps: Math.max(0, putUps - receivedPutUps), on: expectedOn as string }
        })
        .sort(byDay),
      away: timesAway.flatMap(({ id, owner, what, fromOn, toOn }) => {
        const days = overlapOf({ fromOn, toOn }, next)
        return days ? [{ id, ownerName: owner.name, what, ...days }] : []
      }),
      occasions: occasionDays(listOccasions(occasions), next, occasions),
    },
  }
}

/** A span's lines of the journal that say something came in, went out or came back. */
async function readMovements(ownerIds: readonly string[], { fromOn, toOn }: Span): Promise<WeekMovement[]> {
  const among = ownerIds.map(() => '?').join(', ') || 'NULL'
  const sql = `SELECT CAST(m."at" AS TEXT), m."kind", m."batchId", m."clothPieceId", m."chartId", m."notionId", m."wholeDelta",
      m."partDeltaStrandTenths"
    FROM "Movement" m
    LEFT JOIN "Batch" b ON b."id" = m."batchId"
    LEFT JOIN "ClothPiece" c ON c."id" = m."clothPieceId"
    LEFT JOIN "Chart" h ON h."id" = m."chartId"
    LEFT JOIN "Notion" n ON n."id" = m."notionId"
    WHERE m."at" >= ? AND m."at" < ? AND m."kind" IN ('receive', 'take', 'return')
      AND COALESCE(b."ownerId", c."ownerId", h."ownerId", n."ownerId") IN (${among})`
  // A day more at both ends: the calendar of the house may be ahead of universal time, or behind it.
  const from = timestamp(new Date(`${addDays(fromOn, -1)}T00:00:00Z`))
  const to = timestamp(new Date(`${addDays(toOn, 2)}T00:00:00Z`))
  const found: WeekMovement[] = []
  await readSnapshot(database(), async (rows) => {
    for await (const some of rows(sql, [from, to, ...ownerIds]))
      for (const [at, kind, batchId, clothPieceId, chartId, notionId, wholeDelta, partDelta] of some) {
        const on = calendarDay(new Date(`${text(at).slice(0, 19).replace(' ', 'T')}Z`))
        if (on < fromOn || on > toOn) continue
        found.push({
          kind: text(kind) as MovementKind,
          noun: batchId !== null ? 'thread' : clothPieceId !== null ? 'cloth' : chartId !== null ? 'chart' : 'notion',
          thingId: textOrNull(batchId) ?? textOrNull(clothPieceId) ?? textOrNull(chartId) ?? text(notionId),
          ...{ wholeDelta: number(wholeDelta), hasPart: number(partDelta) > 0 },
        })
      }
  })
  return found
}
