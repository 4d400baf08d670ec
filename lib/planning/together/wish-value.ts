/** What a design counts for, and why: each part adds its points. */
export type ValuePart =
  /** Among the wishes, with its stars; null where nobody said how many. */
  | { kind: 'wish'; stars: number | null; points: number }
  /** Not wished for. */
  | { kind: 'plain'; points: number }
  /** yyyy-mm-dd: the nearest day it is wanted by. */
  | { kind: 'due'; dueOn: string; points: number }
  /** Its season is near. */
  | { kind: 'season'; theme: string; weeks: number; points: number }
  /** Whole years since its chart was bought. */
  | { kind: 'bought'; years: number; points: number }

export type WishValue = { value: number; parts: ValuePart[] }

export type WishFacts = {
  isWanted: boolean
  /** 1 to 5; null where nobody said. */
  stars: number | null
  /** yyyy-mm-dd: the nearest day it is wanted by. */
  dueOn: string | null
  /** Its season that comes next, with the weeks until then; null when it has none. */
  season: { theme: string; weeks: number } | null
  /** yyyy-mm-dd */
  boughtOn: string | null
}

export const mostStars = 5
/** A wish nobody gave stars counts as the middle of them. */
const usualStars = 3
const pointsAStar = 2
/** A quarter and half a year, in days: a day as near as that adds so many points. A day gone by counts as near. */
const dueSteps = [
  { days: 91, points: 4 },
  { days: 182, points: 2 },
] as const
/** A season this many weeks off or nearer adds so many. */
const seasonStep = { weeks: 26, points: 3 }
/** Each whole year its chart has lain adds one, up to so many. */
const mostBoughtPoints = 3
const dayMs = 86_400_000

/**
 * What a design counts for when not all can be stitched, as a sum a person can follow: 1, or for a wish twice its stars (6 where none are
 * given); wanted by a day within a quarter, or one gone by, 4 more, within half a year 2 more; a season at most 26 weeks off 3 more; and 1
 * more for each whole year since the chart was bought, up to 3. All these figures are chosen, not measured.
 *
 * @param today  yyyy-mm-dd
 */
export function wishValue({ isWanted, stars, dueOn, season, boughtOn }: WishFacts, today: string): WishValue {
  const parts: ValuePart[] = [
    isWanted ? { kind: 'wish', stars, points: pointsAStar * (stars ?? usualStars) } : { kind: 'plain', points: 1 },
  ]
  if (dueOn !== null) {
    const days = (Date.parse(dueOn) - Date.parse(today)) / dayMs
    const step = dueSteps.find((one) => days <= one.days)
    if (step) parts.push({ kind: 'due', dueOn, points: step.points })
  }
  if (season && season.weeks <= seasonStep.weeks) parts.push({ kind: 'season', ...season, points: seasonStep.points })
  const years = boughtOn === null ? 0 : wholeYears(boughtOn, today)
  if (years > 0) parts.push({ kind: 'bought', years, points: Math.min(years, mostBoughtPoints) })
  return { value: parts.reduce((sum, { points }) => sum + points, 0), parts }
}

/** Anniversaries gone by. */
function wholeYears(from: string, today: string): number {
  const years = Number(today.slice(0, 4)) - Number(from.slice(0, 4))
  return Math.max(0, today.slice(5) < from.slice(5) ? years - 1 : years)
}

/** The most a person may let one design count. */
export const mostValueOfDesign = 99

/** Which designs are chosen from: the wishes, all that is stitchable now, all that lack few put-ups, or those that were ticked. */
export const choiceSources = ['wished', 'stitchable', 'near', 'ticked'] as const
export type ChoiceSource = (typeof choiceSources)[number]
/** What is near lacks so many put-ups at most. */
export const nearPutUps = 3
