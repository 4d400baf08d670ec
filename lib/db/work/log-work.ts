import 'server-only'
import type { ProjectStatus, TransitionRefused } from '#lib/project/life-cycle'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import type { PreparedPhoto } from '../photo/prepare-photo'
import { withPhoto } from '../photo/with-photo'
import {
  type ClothChoiceRefused,
  type ProjectEdit,
  type ProjectEditRefused,
  type ProjectSnapshot,
  planStep,
  readProject,
} from '../project/project-row'
import { write } from '../write'
import type { Write } from '../write-gate'
import { readLog, settleLog } from './settle-log'

/** What one line of a log says. */
export type WorkSaid = {
  /** yyyy-mm-dd */
  day: string
  /** Less than nothing where some were unpicked. */
  stitches: number
  minutes: number
  /** How far it has come, in thousandths of the whole, instead of stitches. */
  donePerMille: number | null
  note: string | null
}

export type LogWork = Omit<ProjectEdit, 'version'> &
  Omit<WorkSaid, 'minutes'> & {
    /** Null with a timer that is stopped: what it says. */
    minutes: number | null
    /** Neither figure: it was worked on. */
    isTick?: boolean
    /** The timer that runs is stopped with it. */
    stopsTimer?: boolean
    photo?: PreparedPhoto | null
    /** yyyy-mm-dd */
    today: string
    /** Left out, now: when a timer is stopped. */
    now?: Date
  }

export type WorkSaidRefused =
  | { kind: 'nothing-logged' }
  | { kind: 'stitches-and-percent' }
  | { kind: 'not-yet'; day: string }
  | { kind: 'below-nothing'; stitchesDone: number }

export type LogRefused =
  | ProjectEditRefused
  | WorkSaidRefused
  | TransitionRefused
  | ClothChoiceRefused
  | { kind: 'given-up' }
  | { kind: 'no-timer' }
  | { kind: 'timer-too-long'; minutes: number }

/** Longer than anybody sits at it: the timer was forgotten. */
export const longestSittingMinutes = 720

/** Whether an entry says something, once, of a day that has come. */
export function checkSaid(said: WorkSaid & { isTick?: boolean; today: string }): Result<null, WorkSaidRefused> {
  const { day, stitches, minutes, donePerMille, isTick, today } = said
  for (const figure of [stitches, minutes, donePerMille ?? 0])
    if (!Number.isSafeInteger(figure)) throw new RangeError(`checkSaid: ${figure}`)
  if (minutes < 0) throw new RangeError(`checkSaid: ${minutes} minutes`)
  if (day > today) return refused({ kind: 'not-yet', day })
  if (stitches !== 0 && donePerMille !== null) return refused({ kind: 'stitches-and-percent' })
  if (stitches === 0 && minutes === 0 && donePerMille === null && !isTick) return refused({ kind: 'nothing-logged' })
  return ok(null)
}

/**
 * Add what was done to a project's log, and to its totals. Two people logging at one moment both count.
 *
 * Whoever logs has stitched: what was not begun is begun on that day, and what rests is taken up again when the day is today. That the
 * last stitch is made is never said by a figure, only by a person.
 */
export function logWork(input: LogWork): Promise<Result<{ entryId: string; isTakenUp: boolean }, LogRefused>> {
  return withPhoto(input.photo ?? null, (photoFile) =>
    write<{ entryId: string; isTakenUp: boolean }, LogRefused>(async (writing) => {
      const { tx, at } = writing
      const read = await readProject(tx, { projectId: input.projectId })
      if (!read.ok) return read
      const project = read.value
      if (project.status === 'abandoned') return refused({ kind: 'given-up' })
      const timed = input.stopsTimer
        ? await stopTimer(writing, project.id, input.minutes, input.now ?? at)
        : ok(input.minutes ?? 0)
      if (!timed.ok) return timed
      const { day, stitches, donePerMille, note, isTick = false, today, who = null } = input
      const said = { day, stitches, donePerMille, note, minutes: timed.value }
      const checked = checkSaid({ ...said, isTick, today })
      if (!checked.ok) return checked
      if (project.stitchesDone + stitches < 0) return refused({ kind: 'below-nothing', stitchesDone: project.stitchesDone })

      const before = await readLog(tx, project.id)
      const entryId = newId()
      await tx.workEntry.create({ data: { id: entryId, projectId: project.id, ...said, photoFile, who, at } })
      const taken = await takeUp(writing, project, day, today)
      if (!taken.ok) return taken
      const settled = await settleLog(writing, project, before, taken.value)
      return settled.ok ? ok({ entryId, isTakenUp: taken.value.status !== undefined }) : settled
    }),
  )
}

async function stopTimer(
  { tx }: Write,
  projectId: string,
  saidMinutes: number | null,
  now: Date,
): Promise<Result<number, Extract<LogRefused, { kind: 'no-timer' | 'timer-too-long' }>>> {
  const timer = await tx.workTimer.findUnique({ where: { projectId } })
  if (!timer) return refused({ kind: 'no-timer' })
  const ran = Math.max(1, Math.round((now.getTime() - timer.startedAt.getTime()) / 60_000))
  if (saidMinutes === null && ran > longestSittingMinutes) return refused({ kind: 'timer-too-long', minutes: ran })
  await tx.workTimer.delete({ where: { projectId } })
  return ok(saidMinutes ?? ran)
}

type TakenUp = { status?: ProjectStatus; startedOn?: string | null; finishedOn?: string | null }

/** What the day's work makes of the project's state; nothing of it where it stays as it is. */
async function takeUp(
  writing: Write,
  project: ProjectSnapshot,
  day: string,
  today: string,
): Promise<Result<TakenUp, TransitionRefused | ClothChoiceRefused>> {
  const { status, startedOn } = project
  const begun: TakenUp = startedOn !== null && day < startedOn ? { startedOn: day } : {}
  const isNew = status === 'wanted' || status === 'planned' || status === 'kitted'
  if (!isNew && !(status === 'resting' && day === today)) return ok(begun)
  const step = await planStep(writing, project, 'stitching', day)
  return step.ok ? ok({ ...step.value, ...begun }) : step
}
