import { addDays, daysBetween, earlierOf } from '#lib/quantity/day'
import { byText } from '#lib/quantity/text-order'
import { dayAfterStitching, dayBeforeStitching, weeksFor } from './finish-dates'
import type { DaySpan, Pace } from './pace'

/** A work, or a part of one, that wants its share of a person's weeks. */
export type ScheduleJob = {
  id: string
  /** What is left of it, whole, in the unit of the pace. */
  left: number
  /** yyyy-mm-dd: it cannot be worked on before; null from today. */
  fromOn: string | null
  /** yyyy-mm-dd: when its last stitch has to be made; null where it is not due. */
  stitchedBy: string | null
}

/** Worked on without a break; its days are those of the whole weeks it falls in. */
type ScheduleSpan = { beginsOn: string; endsOn: string; amount: number }

export type Scheduled = {
  id: string
  /** When it is worked on, another's turn coming in between where that is due sooner. Empty when nothing is left, or beyond the horizon. */
  spans: ScheduleSpan[]
  /** Of the first week it has a share in; null when nothing is left of it, or it comes beyond the horizon. */
  beginsOn: string | null
  /** The day after the last week it has a share in, as `dayAfterStitching` counts; null alike, or when that is beyond the horizon. */
  endsOn: string | null
  /** Days that is after it has to be stitched; nought or less in time; null where it is not due or ends beyond the horizon. */
  daysLate: number | null
  /** With all that is due sharing the weeks, the last day to begin it; null where it is not due or nothing is left. */
  latestStart: string | null
}

export type Schedule = {
  /** In the order given. */
  jobs: Scheduled[]
  /** Time nothing that is due takes, before the last of it is done: it waits for what has not come out yet. */
  gaps: { fromOn: string; toOn: string }[]
}

/** What would come later than in a hundred years is not given a day. */
const mostWeeks = 5_200

/** The order of turns: what is due by how soon, then what is not; alike, in the order given. */
const byDue = (a: ScheduleJob, b: ScheduleJob): number =>
  a.stitchedBy === null || b.stitchedBy === null
    ? Number(a.stitchedBy === null) - Number(b.stitchedBy === null)
    : byText(a.stitchedBy, b.stitchedBy)

/**
 * Share one person's weeks among works: in every week the one due soonest of those that can be worked on has as much as it still needs,
 * then the next, and what is not due comes after in the order given. Weeks are counted from today, days away left out, and each holds as
 * much as the pace says; a work that comes out in the middle of one has its first share in the next.
 *
 * Taking turns so, with work put by whenever something more urgent comes out, no order has a smaller greatest lateness: so if all dates
 * can be kept, these keep them (J. R. Jackson, "Scheduling a production line to minimize maximum tardiness", UCLA Management Science
 * Research Project 43, 1955, for works all there from the start; W. A. Horn, "Some simple scheduling algorithms", Naval Research
 * Logistics Quarterly 21, 1974, for works that come out later).
 *
 * Everything is counted in whole parts, as many to a week as the pace has stitches, so nothing is rounded but weeks, and those up.
 *
 * @param work.jobs  no two with one id
 * @throws {RangeError} for a pace of nothing, or what is left not whole
 */
export function levelSchedule(work: {
  jobs: readonly ScheduleJob[]
  pace: Pace
  away: readonly DaySpan[]
  today: string
}): Schedule {
  const { jobs, pace, away, today } = work
  if (!(pace.amount > 0) || !(pace.weeks > 0)) throw new RangeError(`levelSchedule: ${pace.amount} in ${pace.weeks} weeks`)
  for (const { left } of jobs) if (!Number.isSafeInteger(left) || left < 0) throw new RangeError(`levelSchedule: ${left} left`)

  const weeks = weekDays(today, away)
  /** Parts to a week; a stitch is `pace.weeks` of them. */
  const partsAWeek = pace.amount
  const turns = jobs
    .map((job) => ({
      job,
      left: job.left * pace.weeks,
      from: weeks.firstFrom(job.fromOn) * partsAWeek,
      spans: [] as { from: number; to: number }[],
    }))
    .filter(({ left }) => left > 0)
    .sort((a, b) => byDue(a.job, b.job))

  let now = 0
  for (;;) {
    const open = turns.filter(({ left }) => left > 0)
    const next = open.find(({ from }) => from <= now)
    if (!next) {
      if (open.length === 0) break
      now = Math.min(...open.map(({ from }) => from))
      continue
    }
    const before = open.slice(0, open.indexOf(next))
    const until = Math.min(now + next.left, ...before.map(({ from }) => from))
    const last = next.spans.at(-1)
    if (last?.to === now) last.to = until
    else next.spans.push({ from: now, to: until })
    next.left -= until - now
    now = until
  }

  const weekOf = (part: number): number => Math.floor(part / partsAWeek)
  const weekAfter = (part: number): number => Math.ceil(part / partsAWeek)
  const latest = latestStarts(jobs, pace, away)
  const spansOf = new Map(turns.map(({ job, spans }) => [job.id, spans]))
  const scheduled = jobs.map(({ id, stitchedBy }): Scheduled => {
    const spans = (spansOf.get(id) ?? []).flatMap(({ from, to }): ScheduleSpan[] => {
      const [beginsOn, endsOn] = [weeks.begins(weekOf(from)), weeks.ends(weekAfter(to))]
      return beginsOn === null || endsOn === null ? [] : [{ beginsOn, endsOn, amount: Math.round((to - from) / pace.weeks) }]
    })
    const isWhole = spans.length === (spansOf.get(id) ?? []).length
    const endsOn = isWhole ? (spans.at(-1)?.endsOn ?? null) : null
    return {
      ...{ id, spans, beginsOn: spans[0]?.beginsOn ?? null, endsOn },
      daysLate: endsOn !== null && stitchedBy !== null ? daysBetween(stitchedBy, endsOn) : null,
      latestStart: latest.get(id) ?? null,
    }
  })

  const taken = turns.flatMap(({ job, spans }) => (job.stitchedBy === null ? [] : spans)).sort((a, b) => a.from - b.from)
  const gaps: Schedule['gaps'] = []
  let end = 0
  for (const { from, to } of taken) {
    // Whole weeks only: the rest of a week is not a gap worth naming.
    const [fromOn, toOn] = [weeks.begins(weekAfter(end)), weeks.ends(weekOf(from))]
    if (weekOf(from) > weekAfter(end) && fromOn !== null && toOn !== null) gaps.push({ fromOn, toOn: addDays(toOn, -1) })
    end = Math.max(end, to)
  }
  return { jobs: scheduled, gaps }
}

/** The weeks from a day on, days away left out of them; null beyond the horizon. */
function weekDays(today: string, away: readonly DaySpan[]) {
  const known = new Map<number, string>()
  const ends = (count: number): string | null => {
    if (count > mostWeeks) return null
    const day = known.get(count) ?? dayAfterStitching(today, count, away).day
    known.set(count, day)
    return day
  }
  /** Its first day at home. */
  const begins = (week: number): string | null => {
    let day = ends(week)
    for (;;) {
      const span =
        day === null ? undefined : away.find(({ fromOn, toOn }) => fromOn <= (day as string) && (day as string) <= toOn)
      if (!span) return day
      day = addDays(span.toOn, 1)
    }
  }
  /** The first week that begins on a day or after it. */
  const firstFrom = (day: string | null): number => {
    if (day === null || day <= today) return 0
    let [low, high] = [0, Math.min(mostWeeks, Math.ceil(daysBetween(today, day) / 7))]
    while (low < high) {
      const middle = Math.floor((low + high) / 2)
      if ((begins(middle) ?? '9999') >= day) high = middle
      else low = middle + 1
    }
    return low
  }
  return { begins, ends, firstFrom }
}

/**
 * The last day to begin each work that is due, the others begun as late as they can be too: from the last one back, each ends when it
 * has to, or when the one after it must be begun if that is sooner. Works that touch share a week as they do in the schedule, so weeks
 * are rounded up once for a run of them. What has not come out yet is taken as if it had.
 */
function latestStarts(jobs: readonly ScheduleJob[], pace: Pace, away: readonly DaySpan[]): Map<string, string> {
  const due = jobs.filter(({ left, stitchedBy }) => left > 0 && stitchedBy !== null).sort(byDue)
  const starts = new Map<string, string>()
  let run: { endsOn: string; left: number; startsOn: string } | null = null
  for (const { id, left, stitchedBy } of due.reverse()) {
    const by = stitchedBy as string
    const wholeWeeks: number = run === null ? 0 : Math.floor((run.left * pace.weeks) / pace.amount)
    // The week in which the work after it begins ends in time for this one, so the two can share it.
    const isJoined: boolean = run !== null && dayBeforeStitching(run.endsOn, wholeWeeks, away).day <= by
    const endsOn: string = run === null ? by : isJoined ? run.endsOn : earlierOf(by, run.startsOn)
    const inAll: number = left + (isJoined && run !== null ? run.left : 0)
    const weeks = weeksFor(inAll, pace)
    if (weeks > mostWeeks) break
    run = { endsOn, left: inAll, startsOn: dayBeforeStitching(endsOn, weeks, away).day }
    starts.set(id, run.startsOn)
  }
  return starts
}
