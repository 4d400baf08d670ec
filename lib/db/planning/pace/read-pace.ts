import 'server-only'
import type { Deadline } from '#lib/planning/pace/finish-dates'
import type { DaySpan, DayWork } from '#lib/planning/pace/pace'
import { type ProjectPace, planPace } from '#lib/planning/pace/project-pace'
import { progressOf, type WorkUnit } from '#lib/project/work-log'
import { database } from '../../client'
import { readStitchesTotal, type StitchesTotal } from '../../project/stitches-total'
import { getSettings } from '../../settings/settings'
import { readDaysOfWork } from '../../work/days-of-work'
import { readLog } from '../../work/settle-log'
import { listTimesAway } from '../days/times-away'

export type PaceReading = ProjectPace & {
  unit: WorkUnit
  done: number
  /** How many stitches the whole has and how that is known; null where nobody can say. */
  total: StitchesTotal | null
  /** The log the pace is of: the project's own, or all of its owner's works where that says nothing yet. */
  source: 'project' | 'owner'
  deadline: Deadline | null
  away: DaySpan[]
  /** Of its own log. */
  log: { entries: number; days: number; minutes: number; firstDay: string | null; lastDay: string | null }
  startedOn: string | null
  finishedOn: string | null
}

/**
 * How far a project has come, at what pace, and when it will be done.
 *
 * @param asked  `perWeek`: so much a week, if she says so: stitches, or per cent where only those are known
 * @returns null when there is no such project
 */
export async function readPace(
  projectId: string,
  asked: { today: string; perWeek?: number | null },
): Promise<PaceReading | null> {
  const { prisma } = database()
  const [settings, project] = await Promise.all([
    getSettings(),
    prisma.project.findFirst({
      where: { id: projectId, goneAt: null },
      select: {
        ...{ designId: true, threadListId: true, quantity: true, ownerId: true, stitchesDone: true, dueOn: true },
        ...{ finishing: true, finishingWeeks: true, startedOn: true, finishedOn: true },
      },
    }),
  ])
  if (!project) return null
  const { planning } = settings
  const { today, perWeek = null } = asked
  const [entries, total, timesAway] = await Promise.all([
    readLog(prisma, projectId),
    readStitchesTotal(prisma, project),
    listTimesAway([project.ownerId]),
  ])
  const { stitchesDone, dueOn, startedOn, finishedOn } = project
  const { unit, done, total: whole, gains } = progressOf({ entries, stitchesDone, stitchesTotal: total?.stitches ?? null })
  const saidPerWeek = perWeek === null ? null : Math.round(unit === 'stitches' ? perWeek : perWeek * 10) || null
  const deadline = dueOn && {
    dueOn,
    finishingWeeks: project.finishingWeeks ?? planning.finishingWeeks,
    bufferWeeks: planning.bufferWeeks,
  }
  const away = timesAway.map(({ fromOn, toOn }) => ({ fromOn, toOn }))
  const plan = (work: readonly DayWork[]) =>
    planPace({
      ...{ work, left: whole === null ? null : Math.max(0, whole - done), away, today },
      ...{ firstWeekday: planning.firstWeekday, deadline: deadline || null, saidPerWeek },
    })
  const own = plan(gains)
  const takesOwners = unit === 'stitches' && !own.weeks.some(({ amount }) => amount > 0)
  const owners = takesOwners ? plan(await readDaysOfWork([project.ownerId])) : null
  const isOwn = owners === null || !owners.weeks.some(({ amount }) => amount > 0)
  const days = new Set(entries.map(({ day }) => day))
  const sorted = [...days].sort()
  return {
    ...(isOwn ? own : owners),
    ...{ unit, done, total, source: isOwn ? 'project' : 'owner', deadline: deadline || null, away, startedOn, finishedOn },
    log: {
      ...{ entries: entries.length, days: days.size, minutes: entries.reduce((sum, { minutes }) => sum + minutes, 0) },
      ...{ firstDay: sorted[0] ?? null, lastDay: sorted.at(-1) ?? null },
    },
  }
}
