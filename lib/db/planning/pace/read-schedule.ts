import { byText } from '#lib/quantity/text-order'
import 'server-only'
import { type Deadline, stitchedBy, weeksFor } from '#lib/planning/pace/finish-dates'
import { type DaySpan, type DayWork, meansOf, type Pace, type PaceWeek, paceWeeks } from '#lib/planning/pace/pace'
import { type Outlook, outlookAt, type PaceKind } from '#lib/planning/pace/project-pace'
import { levelSchedule, type Schedule, type Scheduled } from '#lib/planning/pace/schedule'
import { jobsOf, type OpenPart, partJobId } from '#lib/planning/pace/schedule-jobs'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { progressOf } from '#lib/project/work-log'
import { database } from '../../client'
import { readStitchesTotals, type StitchesTotal } from '../../project/stitches-total'
import { getSettings } from '../../settings/settings'
import { readInParts } from '../../walk/in-parts'
import { listTimesAway } from '../days/times-away'

export type SchedulePart = OpenPart & { name: string; position: number }

/** A work that has to be stitched, or to be finished off. */
export type WorkToStitch = {
  id: string
  title: string
  designId: string
  chartId: string
  threadListId: string | null
  status: ProjectStatus
  quantity: number
  forWhom: string | null
  owner: { id: string; name: string }
  dueOn: string | null
  occasionKey: string | null
  plannedOn: string | null
  startedOn: string | null
  deadline: Deadline | null
  /** The day its last stitch has to be made by. */
  stitchedBy: string | null
  total: StitchesTotal | null
  done: number
  /** Null where nobody knows how many stitches it has. */
  left: number | null
  /** Those not done. */
  parts: SchedulePart[]
}

/** What a work's dates are at one pace. */
export type WorkAtPace = {
  kind: PaceKind
  pace: Pace
  /** By itself; null where nobody knows what is left, or it would take a hundred years. */
  outlook: Outlook | null
  /** In its turn with the others. */
  beginsOn: string | null
  endsOn: string | null
  daysLate: number | null
  /** The last day to begin with the others begun as late as they can be. */
  latestStart: string | null
}

export type OwnerSchedule = {
  owner: { id: string; name: string }
  away: (DaySpan & { id: string; what: string | null })[]
  weeks: PaceWeek[]
  isPartial: boolean
  paces: { kind: PaceKind; pace: Pace; schedule: Schedule }[]
  /** Due ones by their day, then those that are not, in the order of the rotation and then of their age. */
  works: WorkToStitch[]
  atPaces: ReadonlyMap<string, WorkAtPace[]>
}

/** What is stitched by somebody here: not kits to be sold. */
const toStitch = ['wanted', 'planned', 'kitted', 'stitching', 'resting', 'stitched'] as const

/**
 * Everything these owners have to stitch, shared out over their weeks at each pace: the mean of the weeks stitched, of all weeks, and
 * what she says she will do.
 *
 * A wish has its share once it is due. Of kits for sale nothing is stitched, so they have none.
 *
 * @param asked  `perWeek`: so many stitches a week, if she says so; `today`: yyyy-mm-dd
 */
export async function readSchedules(
  ownerIds: readonly string[],
  asked: { today: string; perWeek?: number | null },
): Promise<OwnerSchedule[]> {
  const { prisma } = database()
  const { today, perWeek = null } = asked
  const ofOwners = { ownerId: { in: [...ownerIds] }, goneAt: null }
  const open = { ...ofOwners, status: { in: [...toStitch] } }
  const [{ planning }, rows, daily, timesAway, owners] = await Promise.all([
    getSettings(),
    prisma.project.findMany({
      where: { ...open, OR: [{ status: { not: 'wanted' } }, { dueOn: { not: null } }] },
      select: {
        ...{ id: true, status: true, designId: true, threadListId: true, quantity: true, spares: true, kitPriceMinor: true },
        ...{ forWhom: true, ownerId: true, dueOn: true, occasionKey: true, plannedOn: true, startedOn: true },
        ...{ finishingWeeks: true, stitchesDone: true },
        design: { select: { title: true, chartId: true } },
        turn: { select: { position: true } },
      },
      orderBy: { id: 'asc' },
    }),
    prisma.workEntry.groupBy({
      by: ['day', 'projectId'],
      where: { goneAt: null, project: ofOwners },
      _sum: { stitches: true, minutes: true },
    }),
    listTimesAway(ownerIds),
    prisma.owner.findMany({ where: { id: { in: [...ownerIds] } }, select: { id: true, name: true }, orderBy: { id: 'asc' } }),
  ])
  const ids = rows.map(({ id }) => id)
  const [totals, parts, percents, workers] = await Promise.all([
    readStitchesTotals(prisma, rows),
    readInParts(ids, (some) =>
      prisma.stitchAlongPart.findMany({
        where: { projectId: { in: some }, doneOn: null },
        select: { id: true, projectId: true, position: true, name: true, comesOn: true, dueOn: true, stitches: true },
        orderBy: [{ projectId: 'asc' }, { position: 'asc' }],
      }),
    ),
    // Only what goes by percentages needs its whole log to say how far it has come.
    readInParts(ids, (some) =>
      prisma.workEntry.findMany({
        where: { projectId: { in: some }, goneAt: null, donePerMille: { not: null } },
        select: { id: true, projectId: true, day: true, stitches: true, minutes: true, donePerMille: true },
        orderBy: { id: 'asc' },
      }),
    ),
    prisma.project.findMany({ where: { ...ofOwners, work: { some: { goneAt: null } } }, select: { id: true, ownerId: true } }),
  ])
  const ownerOf = new Map(workers.map(({ id, ownerId }) => [id, ownerId]))

  return owners.map((owner): OwnerSchedule => {
    const away = timesAway
      .filter((time) => time.owner.id === owner.id)
      .map(({ id, fromOn, toOn, what }) => ({ id, fromOn, toOn, what }))
    const work = daily
      .filter(({ projectId }) => ownerOf.get(projectId) === owner.id)
      .map(({ day, _sum }): DayWork => ({ day, amount: _sum.stitches ?? 0, minutes: _sum.minutes ?? 0 }))
    const { weeks, isPartial } = paceWeeks({ work, away, today, firstWeekday: planning.firstWeekday })
    const means = meansOf(weeks)
    const known: [PaceKind, Pace | null][] = [
      ['stitched-weeks', means.stitchedWeeks],
      ['all-weeks', means.allWeeks],
      ['said', perWeek === null ? null : { amount: Math.max(1, Math.round(perWeek)), weeks: 1 }],
    ]

    const works = rows
      .map((row, at) => ({ row, total: totals[at] ?? null }))
      .filter(({ row }) => row.ownerId === owner.id && row.spares === 0 && row.kitPriceMinor === null)
      .map(({ row, total }): WorkToStitch & { turn: number | null } => {
        const { design, turn, finishingWeeks, stitchesDone, dueOn, status } = row
        const entries = percents.filter(({ projectId }) => projectId === row.id)
        const progress = progressOf({ entries, stitchesDone, stitchesTotal: total?.stitches ?? null })
        const isStitched = status === 'stitched'
        const left = progress.unit === 'stitches' && progress.total !== null ? Math.max(0, progress.total - progress.done) : null
        const deadline =
          dueOn === null
            ? null
            : { dueOn, finishingWeeks: finishingWeeks ?? planning.finishingWeeks, bufferWeeks: planning.bufferWeeks }
        return {
          ...{ id: row.id, title: design.title, designId: row.designId, chartId: design.chartId },
          ...{ threadListId: row.threadListId, quantity: row.quantity },
          ...{ status: status as ProjectStatus, forWhom: row.forWhom, owner, dueOn, occasionKey: row.occasionKey },
          ...{ plannedOn: row.plannedOn, startedOn: row.startedOn, deadline, stitchedBy: deadline && stitchedBy(deadline) },
          ...{ total, done: progress.done, left: isStitched ? 0 : left, turn: turn?.position ?? null },
          parts: parts
            .filter(({ projectId }) => projectId === row.id)
            .map(({ id, position, name, comesOn, dueOn: by, stitches }) => ({
              ...{ id, position, name, comesOn, dueOn: by, stitches },
            })),
        }
      })
      .sort(
        (a, b) =>
          byText(a.stitchedBy ?? '9', b.stitchedBy ?? '9') ||
          (a.turn ?? Number.MAX_SAFE_INTEGER) - (b.turn ?? Number.MAX_SAFE_INTEGER) ||
          byText(a.id, b.id),
      )
    const jobs = works.flatMap((one) =>
      one.status === 'stitched'
        ? []
        : jobsOf({ ...one, fromOn: one.startedOn === null && (one.plannedOn ?? '') > today ? one.plannedOn : null }),
    )
    const paces = known.flatMap(([kind, pace]) =>
      pace === null ? [] : [{ kind, pace, schedule: levelSchedule({ jobs, pace, away, today }) }],
    )
    const atPaces = new Map(works.map((one) => [one.id, paces.map((at) => workAtPace(one, at, { away, today }))]))
    return { owner, away, weeks, isPartial, paces, works: works.map(({ turn: _turn, ...one }) => one), atPaces }
  })
}

/** Later than this nothing is planned; see lib/planning/pace/schedule.ts. */
const mostWeeks = 5_200

function workAtPace(
  work: WorkToStitch,
  { kind, pace, schedule }: OwnerSchedule['paces'][number],
  { away, today }: { away: readonly DaySpan[]; today: string },
): WorkAtPace {
  const own = new Set([work.id, ...work.parts.map(({ id }) => partJobId(work.id, id))])
  const jobs = schedule.jobs.filter(({ id }) => own.has(id))
  const { left, deadline } = work
  const isWithin = left !== null && weeksFor(left, pace) <= mostWeeks
  return {
    ...{ kind, pace, outlook: isWithin ? outlookAt({ kind, pace, left, deadline, away, today }) : null },
    beginsOn: least(jobs, ({ beginsOn }) => beginsOn),
    endsOn: jobs.some(({ endsOn, beginsOn }) => beginsOn !== null && endsOn === null) ? null : most(jobs, ({ endsOn }) => endsOn),
    daysLate: jobs.reduce<number | null>(
      (worst, { daysLate }) => (daysLate === null ? worst : Math.max(worst ?? daysLate, daysLate)),
      null,
    ),
    latestStart: least(jobs, ({ latestStart }) => latestStart),
  }
}

const days = (jobs: readonly Scheduled[], of: (job: Scheduled) => string | null): string[] =>
  jobs.flatMap((job) => of(job) ?? []).sort()
const least = (jobs: readonly Scheduled[], of: (job: Scheduled) => string | null): string | null => days(jobs, of)[0] ?? null
const most = (jobs: readonly Scheduled[], of: (job: Scheduled) => string | null): string | null => days(jobs, of).at(-1) ?? null
