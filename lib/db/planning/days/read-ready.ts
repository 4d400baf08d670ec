import 'server-only'
import type { DesignRecord } from '#lib/chart/catalogue'
import { designQuerySchema } from '#lib/chart/design-query'
import type { EngineListAnswer } from '#lib/coverage/engine'
import { type OccasionDay, type OccasionWorld, occasionDays, occasionOfTheme } from '#lib/planning/days/occasions'
import { type Deadline, stitchedBy } from '#lib/planning/pace/finish-dates'
import { type Outlook, outlookAt } from '#lib/planning/pace/project-pace'
import { stitchesUntil } from '#lib/planning/pace/start-by'
import { openStatuses } from '#lib/project/life-cycle'
import type { Answers } from '../../answers/answers'
import { findDesigns } from '../../answers/find-designs'
import { database } from '../../client'
import { readStitchesTotals, type StitchesTotal } from '../../project/stitches-total'
import type { OwnerSchedule } from '../pace/read-schedule'

/** A wish whose design is for a season, with a feast of it in sight. */
type ThemedWish = {
  projectId: string
  designId: string
  title: string
  theme: string
  occasion: OccasionDay
  deadline: Deadline
  left: number | null
  outlooks: Outlook[]
}

/** More wishes than anybody has; the oldest are looked at. */
const mostWishes = 1_000

/**
 * Wishes without a day whose season's theme falls between two days: Christmas designs for December. With what day they would be due, and
 * by when they would have to be begun.
 *
 * @param span  yyyy-mm-dd, both counted
 */
export async function readThemedWishes(
  answers: Answers,
  schedules: readonly OwnerSchedule[],
  asked: { span: { fromOn: string; toOn: string }; today: string; occasions: OccasionWorld },
): Promise<ThemedWish[]> {
  const { span, today, occasions } = asked
  const { planning } = answers.world.settings
  const { prisma } = database()
  const rows = await prisma.project.findMany({
    where: { status: 'wanted', goneAt: null, dueOn: null, ownerId: { in: schedules.map(({ owner }) => owner.id) } },
    select: { id: true, designId: true, threadListId: true, quantity: true, ownerId: true, finishingWeeks: true },
    orderBy: { id: 'asc' },
    take: mostWishes,
  })
  const themed = rows.flatMap((row) => {
    const facts = answers.world.designs.get(row.designId)
    const seasons = (facts?.themeIds ?? []).flatMap((id) => {
      const theme = answers.world.themes.get(id)
      return theme?.axis === 'season' ? [theme.name] : []
    })
    const days = seasons.flatMap((theme) => {
      const key = occasionOfTheme(theme, occasions)
      const [day] = key === null ? [] : occasionDays([{ key, name: nameOf(key, occasions), isOwn: false }], span, occasions)
      return day ? [{ theme, day }] : []
    })
    const first = days.sort((a, b) => (a.day.on < b.day.on ? -1 : 1))[0]
    return facts && first ? [{ row, title: facts.design.title, ...first }] : []
  })
  const totals = await readStitchesTotals(
    prisma,
    themed.map(({ row }) => row),
  )
  return themed.map(({ row, title, theme, day }, at): ThemedWish => {
    const schedule = schedules.find(({ owner }) => owner.id === row.ownerId) as OwnerSchedule
    const deadline = {
      ...{ dueOn: day.on, finishingWeeks: row.finishingWeeks ?? planning.finishingWeeks, bufferWeeks: planning.bufferWeeks },
    }
    const left = totals[at]?.stitches ?? null
    const outlooks =
      left === null
        ? []
        : schedule.paces.map(({ kind, pace }) => outlookAt({ kind, pace, left, deadline, away: schedule.away, today }))
    return { projectId: row.id, designId: row.designId, title, theme, occasion: day, deadline, left, outlooks }
  })
}

const nameOf = (key: string, { own }: OccasionWorld): string => own.find(({ id }) => id === key)?.name ?? key

/** What a person could stitch by a day at one pace. */
export type Room = {
  kind: OwnerSchedule['paces'][number]['kind']
  perWeek: number
  weeks: number
  stitches: number
  /** What is due by then already needs so many, which may be more. */
  spokenFor: number
  free: number
}

export type ReadyDesign = {
  record: DesignRecord
  best: EngineListAnswer | null
  total: StitchesTotal
  /** At which paces it can be stitched in the time that is free. */
  fitsAt: Room['kind'][]
}

export type ReadyBy = {
  deadline: Deadline
  stitchedBy: string
  rooms: Room[]
  /** Those that can be, the best covered first. */
  designs: ReadyDesign[]
  /** Too large; and those of which nobody can say how many stitches they have. */
  tooLarge: number
  unknown: number
  /** Found by theme and words; more than `mostTried` were not looked at. */
  found: number
}

const mostTried = 1_500

/** What of the designs held can be stitched and finished by a day, beside what is due by then already unless that may wait. */
export async function readReadyBy(
  answers: Answers,
  schedule: OwnerSchedule,
  asked: { dueOn: string; themeId: string; words: string; finishingWeeks: number | null; today: string; othersWait: boolean },
): Promise<ReadyBy> {
  const { world } = answers
  const { planning } = world.settings
  const { dueOn, themeId, words, today } = asked
  const deadline = { dueOn, finishingWeeks: asked.finishingWeeks ?? planning.finishingWeeks, bufferWeeks: planning.bufferWeeks }
  const until = stitchedBy(deadline)
  const due = asked.othersWait ? [] : schedule.works.filter(({ stitchedBy: by }) => by !== null && by <= until)
  const spokenFor = due.reduce((sum, { left }) => sum + (left ?? 0), 0)
  const rooms = schedule.paces.map(({ kind, pace }): Room => {
    const { weeks, stitches } = stitchesUntil({ pace, today, until, away: schedule.away })
    return { kind, perWeek: pace.amount / pace.weeks, weeks, stitches, spokenFor, free: Math.max(0, stitches - spokenFor) }
  })

  const axis = world.themes.get(themeId)?.axis
  const ownerIds = [schedule.owner.id]
  const query = designQuerySchema.parse({ q: words || undefined, ...(axis && { [axis]: themeId }) })
  const found = findDesigns(answers, query, ownerIds, mostTried)
  const underWay = new Set(
    [...world.projects.values()]
      .filter(({ status, ownerId }) => (openStatuses as readonly string[]).includes(status) && ownerId === schedule.owner.id)
      .map(({ designId }) => designId),
  )
  const engine = answers.coverage(ownerIds)
  const tried = found.records
    .filter(({ designId }) => !underWay.has(designId))
    .map((record) => ({ record, best: engine.answerFor(record.designId)?.best ?? null }))
  const totals = await readStitchesTotals(
    database().prisma,
    tried.map(({ record, best }) => ({ designId: record.designId, threadListId: best?.listId ?? null, quantity: 1 })),
  )
  const designs = tried.flatMap(({ record, best }, at): ReadyDesign[] => {
    const total = totals[at]
    const fitsAt = total ? rooms.filter(({ free }) => total.stitches <= free).map(({ kind }) => kind) : []
    return total && fitsAt.length > 0 ? [{ record, best, total, fitsAt }] : []
  })
  const unknown = totals.filter((total) => total === null).length
  return {
    ...{ deadline, stitchedBy: until, rooms, designs, unknown, found: found.count },
    tooLarge: tried.length - unknown - designs.length,
  }
}
