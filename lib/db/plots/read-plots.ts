import 'server-only'
import { readiness } from '#lib/chart/catalogue'
import { meansOf, type Pace, type PaceWeek, paceWeeks, weekStart } from '#lib/planning/pace/pace'
import { type ClothOfCount, clothByCount } from '#lib/planning/plots/cloth-counts'
import { type OutSpan, outByAge } from '#lib/planning/plots/out-ages'
import { coverBySeason, type Nearness, nearnessOf, type SeasonCover } from '#lib/planning/plots/season-cover'
import { monthsUpTo, type StashMonth, stashMonths } from '#lib/planning/plots/stash-months'
import { addDays } from '#lib/quantity/day'
import type { Answers } from '../answers/answers'
import { getAnswers } from '../answers/get-answers'
import { database } from '../client'
import { listTimesAway } from '../planning/days/times-away'
import { readDaysOfWork } from '../work/days-of-work'
import { readOut } from './read-out'
import { readStashMovements } from './read-stash-movements'

export type PacePlot = {
  /** Whole weeks, the earliest first. */
  weeks: PaceWeek[]
  isPartial: boolean
  /** Stitched in the week under way. */
  thisWeek: number
  means: { stitchedWeeks: Pace | null; allWeeks: Pace | null }
}
export type StashPlot = { thread: StashMonth[]; cloth: StashMonth[]; charts: StashMonth[] }
export type SeasonPlot = (SeasonCover & { name: string | null })[]

type Asked = { ownerIds: readonly string[]; today: string }

const weeksShown = 26
const monthsShown = 12

/** Stitches by week over half a year, and both means of these weeks. */
export async function readPacePlot({ ownerIds, today }: Asked): Promise<PacePlot> {
  const { settings } = (await getAnswers()).world
  const { firstWeekday } = settings.planning
  const since = addDays(weekStart(today, firstWeekday), -7 * weeksShown)
  const [work, away] = await Promise.all([readDaysOfWork(ownerIds, since), listTimesAway(ownerIds)])
  const { weeks, isPartial } = paceWeeks({ work, away, today, firstWeekday, most: weeksShown })
  const thisWeek = work.reduce(
    (sum, { day, amount }) => (day >= weekStart(today, firstWeekday) && day <= today ? sum + amount : sum),
    0,
  )
  return { weeks, isPartial, thisWeek, means: meansOf(weeks) }
}

/** What came in and went out over a year, by month. */
export async function readStashPlot({ ownerIds, today }: Asked): Promise<StashPlot> {
  const months = monthsUpTo(today, monthsShown)
  // A day early: the calendar of the house may be ahead of universal time.
  const read = await readStashMovements(new Date(`${addDays(`${months[0]}-01`, -1)}T00:00:00Z`))
  const asked = { months, ownerIds: new Set(ownerIds) }
  return {
    thread: stashMonths(read.thread, asked),
    cloth: stashMonths(read.cloth, asked),
    charts: stashMonths(read.charts, asked),
  }
}

/** How near the designs of each season are to being stitched, from the answers in memory. */
export async function readSeasonPlot(ownerIds: readonly string[]): Promise<SeasonPlot> {
  const answers = await getAnswers()
  const { themes } = answers.world
  const nameOf = (seasonId: string) => themes.get(seasonId)?.name ?? ''
  return coverBySeason(nearnesses(answers, ownerIds), nameOf).map((cover) => ({
    ...cover,
    name: cover.seasonId === null ? null : nameOf(cover.seasonId),
  }))
}

function* nearnesses(
  answers: Answers,
  ownerIds: readonly string[],
): Generator<{ seasonIds: readonly string[]; nearness: Nearness }> {
  const { rowOf, rankAt, buyPutUpsAt, readinessOfRank } = answers.coverage(ownerIds).designs
  for (const designId of answers.world.designs.keys()) {
    const record = answers.catalogue.find(designId)
    if (!record || !ownerIds.includes(record.ownerId)) continue
    const row = rowOf(designId)
    const isReady = row >= 0 && readinessOfRank[rankAt(row)] === readiness.now
    yield { seasonIds: record.seasonIds, nearness: nearnessOf({ isReady, buyPutUps: row < 0 ? null : buyPutUpsAt(row) }) }
  }
}

/** Cloth held by count. */
export async function readClothPlot(ownerIds: readonly string[]): Promise<ClothOfCount[]> {
  const rows = await database().prisma.clothPiece.findMany({
    where: { ownerId: { in: [...ownerIds] }, goneAt: null },
    select: {
      ...{ weave: true, endsThreads: true, endsPerUm: true, picksThreads: true, picksPerUm: true },
      ...{ widthUm: true, heightUm: true, countCertainty: true, isCountStale: true },
    },
    orderBy: { id: 'asc' },
  })
  return clothByCount(
    rows.map(({ weave, endsThreads, endsPerUm, picksThreads, picksPerUm, countCertainty, ...piece }) => ({
      ...piece,
      weave: weave as 'block' | 'single',
      ends: { threads: endsThreads, perUm: endsPerUm },
      picks: { threads: picksThreads, perUm: picksPerUm },
      countCertainty: countCertainty as 'measured' | 'label' | 'guess',
    })),
  )
}

/** What is out, by how long. */
export const readOutPlot = async ({ ownerIds, today }: Asked): Promise<OutSpan[]> => outByAge(await readOut(ownerIds), today)

export type Plots = { pace: PacePlot; stash: StashPlot; seasons: SeasonPlot; cloth: ClothOfCount[]; out: OutSpan[] }

export async function readPlots(asked: Asked): Promise<Plots> {
  const [pace, stash, seasons, cloth, out] = await Promise.all([
    readPacePlot(asked),
    readStashPlot(asked),
    readSeasonPlot(asked.ownerIds),
    readClothPlot(asked.ownerIds),
    readOutPlot(asked),
  ])
  return { pace, stash, seasons, cloth, out }
}
