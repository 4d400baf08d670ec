/** How many weeks until a season theme comes round next; null for one that names no time of the year. */
export type WeeksUntil = (themeName: string, today: string) => number | null

/** Months and days by what a theme's name says, on the northern half of the globe: a season from its first day. */
const days: readonly { word: RegExp; monthDay: string }[] = [
  { word: /\b(christmas|yule|advent)\b/i, monthDay: '12-25' },
  { word: /\bnew year\b/i, monthDay: '01-01' },
  { word: /\bvalentine/i, monthDay: '02-14' },
  { word: /\b(halloween|all hallows)/i, monthDay: '10-31' },
  { word: /\bharvest\b/i, monthDay: '09-22' },
  { word: /\bspring\b/i, monthDay: '03-20' },
  { word: /\b(mid)?summer\b/i, monthDay: '06-21' },
  { word: /\b(autumn|fall)\b/i, monthDay: '09-22' },
  { word: /\b(mid)?winter\b/i, monthDay: '12-21' },
]

const dayMs = 86_400_000

/**
 * A fixed reading of season names: the next day of that name from today on. Days that move are not known here.
 *
 * @param today  yyyy-mm-dd
 */
export const weeksUntilFixedDay: WeeksUntil = (themeName, today) => {
  const found = days.find(({ word }) => word.test(themeName))
  if (!found) return null
  const year = Number(today.slice(0, 4)) + (found.monthDay < today.slice(5) ? 1 : 0)
  return Math.floor((Date.parse(`${year}-${found.monthDay}`) - Date.parse(today)) / dayMs / 7)
}
