import 'server-only'
import { grouped } from '#lib/grouped'
import { byDay, type CalendarEvent } from '#lib/planning/days/calendar'
import { findOccasion, listOccasions, type OccasionWorld, occasionDays } from '#lib/planning/days/occasions'
import type { PaceKind } from '#lib/planning/pace/project-pace'
import { database } from '../../client'
import type { OwnerSchedule, WorkToStitch } from '../pace/read-schedule'
import { type ClashOfPlan, clashesOfPlans } from './plan-clashes'

type CalendarAsked = {
  ownerIds: readonly string[]
  schedules: readonly OwnerSchedule[]
  world: OccasionWorld
  /** yyyy-mm-dd, both counted. */
  fromOn: string
  toOn: string
  today: string
}

/** Of what a loan is about, so many things are named. */
const mostNamed = 3

/** When a work that is not begun wants its chart: when it is planned, or when it must be begun at the latest, by the slower pace. */
function wantedOn(work: WorkToStitch, schedule: OwnerSchedule, today: string): string | null {
  if (work.startedOn !== null || work.status === 'stitched') return null
  const starts = (schedule.atPaces.get(work.id) ?? []).flatMap(({ outlook }) => outlook?.due?.startBy ?? [])
  const day = work.plannedOn ?? starts.sort()[0] ?? null
  return day !== null && day < today ? today : day
}

/** Where plans and loans want the same chart. */
export const readPlanClashes = (schedules: readonly OwnerSchedule[], today: string): Promise<ClashOfPlan[]> =>
  clashesOfPlans(
    schedules.flatMap((schedule) =>
      schedule.works.flatMap((work) => {
        const day = wantedOn(work, schedule, today)
        return day === null ? [] : [{ projectId: work.id, chartId: work.chartId, wantedOn: day }]
      }),
    ),
    today,
  )

/** Everything that falls on a day of a span: what has to be done, and what is to be known. In the order of the days. */
export async function readCalendar(asked: CalendarAsked): Promise<CalendarEvent[]> {
  const { ownerIds, schedules, world, fromOn, toOn, today } = asked
  const { prisma } = database()
  const within = { gte: fromOn, lte: toOn }
  const ofOwners = { ownerId: { in: [...ownerIds] } }
  const [loans, orders, clashes, versions] = await Promise.all([
    prisma.loan.findMany({
      where: { ...ofOwners, closedOn: null, dueOn: within },
      select: {
        ...{ id: true, kind: true, dueOn: true, version: true },
        place: { select: { label: true } },
        project: { select: { design: { select: { title: true } } } },
        lines: {
          where: { backOn: null },
          select: {
            text: true,
            chart: { select: { title: true } },
            project: { select: { design: { select: { title: true } } } },
          },
          orderBy: { position: 'asc' },
          take: mostNamed,
        },
      },
      orderBy: { id: 'asc' },
    }),
    prisma.threadOrder.findMany({
      where: { ...ofOwners, closedAt: null, expectedOn: within },
      select: {
        ...{ id: true, expectedOn: true, supplier: true, putUps: true, receivedPutUps: true, version: true },
        thread: { select: { code: true, line: { select: { maker: { select: { name: true } } } } } },
      },
      orderBy: { id: 'asc' },
    }),
    readPlanClashes(schedules, today),
    prisma.project.findMany({
      where: { ...ofOwners, goneAt: null, status: { notIn: ['finished', 'abandoned'] } },
      select: { id: true, version: true },
    }),
  ])
  const versionOf = new Map(versions.map(({ id, version }) => [id, version]))

  const events: CalendarEvent[] = schedules.flatMap((schedule) => [
    ...schedule.works.flatMap((work) => workEvents(work, schedule, world, versionOf.get(work.id) ?? 0)),
    ...schedule.away
      .filter((time) => time.fromOn <= toOn && time.toOn >= fromOn)
      .map(
        ({ id, fromOn: on, toOn: last, what }): CalendarEvent => ({
          ...{ uid: `away-${id}@chart-larder`, sequence: 0, on, toOn: last },
          ...{ kind: 'away', what, ownerName: schedule.owner.name },
        }),
      ),
  ])
  for (const { key, name, on } of occasionDays(listOccasions(world), { fromOn, toOn }, world)) {
    const isOwn = world.own.some(({ id }) => id === key)
    events.push({
      uid: `occasion-${key}-${on.slice(0, 4)}@chart-larder`,
      sequence: 0,
      on,
      toOn: on,
      kind: 'occasion',
      name,
      isOwn,
    })
  }
  for (const loan of loans) {
    if (loan.dueOn === null) continue
    const things = [
      loan.project?.design.title,
      ...loan.lines.map(({ text, chart, project }) => text ?? chart?.title ?? project?.design.title),
    ]
    events.push({
      ...{ uid: `loan-${loan.id}@chart-larder`, sequence: loan.version, on: loan.dueOn, toOn: loan.dueOn, kind: 'loan' },
      ...{ loanId: loan.id, isBorrowed: loan.kind === 'borrow', placeLabel: loan.place.label },
      things: [...new Set(things.flatMap((thing) => thing ?? []))].slice(0, mostNamed),
    })
  }
  const waiting = orders
    .map((order) => ({ ...order, toCome: Math.max(0, order.putUps - order.receivedPutUps) }))
    .filter(({ toCome }) => toCome > 0)
  for (const some of grouped(waiting, ({ expectedOn, supplier }) => `${expectedOn} ${supplier ?? ''}`).values()) {
    const [first] = some
    if (!first?.expectedOn) continue
    events.push({
      ...{
        uid: `order-${first.id}@chart-larder`,
        sequence: first.version,
        on: first.expectedOn,
        toOn: first.expectedOn,
        kind: 'order',
      },
      ...{ supplier: first.supplier, putUps: some.reduce((sum, { toCome }) => sum + toCome, 0) },
      threads: some.map(({ thread }) => `${thread.line.maker.name} ${thread.code}`),
    })
  }
  const titleOf = new Map(schedules.flatMap(({ works }) => works.map(({ id, title }) => [id, title])))
  for (const { projectId, loanId, placeLabel, clash } of clashes) {
    events.push({
      ...{ uid: `clash-${projectId}-${loanId}@chart-larder`, sequence: 0, on: clash.fromOn, toOn: clash.fromOn, kind: 'clash' },
      ...{
        project: { id: projectId, title: titleOf.get(projectId) ?? '' },
        placeLabel,
        loanId,
        untilOn: clash.untilOn,
        days: clash.days,
      },
    })
  }
  return events.filter(({ on, toOn: last }) => on <= toOn && last >= fromOn).sort(byDay)
}

/** What a work puts in the calendar: when it is due and must be begun, when it is planned, and its parts. */
function workEvents(work: WorkToStitch, schedule: OwnerSchedule, world: OccasionWorld, sequence: number): CalendarEvent[] {
  const project = { id: work.id, title: work.title }
  const at = (name: string, on: string) => ({ uid: `${name}@chart-larder`, sequence, on, toOn: on, project })
  const events: CalendarEvent[] = []
  if (work.dueOn !== null) {
    const occasion = work.occasionKey === null ? null : (findOccasion(work.occasionKey, world)?.name ?? null)
    events.push({ ...at(`due-${work.id}`, work.dueOn), kind: 'due', occasion })
  }
  if (work.plannedOn !== null && work.startedOn === null)
    events.push({ ...at(`planned-${work.id}`, work.plannedOn), kind: 'planned' })
  if (work.status !== 'stitched' && work.left !== 0) {
    const starts = grouped(
      (schedule.atPaces.get(work.id) ?? []).filter(({ outlook }) => outlook?.due),
      ({ outlook }) => outlook?.due?.startBy as string,
    )
    for (const [day, some] of starts) {
      const paces = some.map(({ kind }): PaceKind => kind)
      events.push({ ...at(`start-${paces[0]}-${work.id}`, day), kind: 'start-by', paces, isBegun: work.startedOn !== null })
    }
  }
  for (const part of work.parts) {
    if (part.comesOn !== null) events.push({ ...at(`part-out-${part.id}`, part.comesOn), kind: 'part-out', part: part.name })
    if (part.dueOn !== null) events.push({ ...at(`part-due-${part.id}`, part.dueOn), kind: 'part-due', part: part.name })
  }
  return events
}
