/** The hour a backup is made at, HH:MM by this machine's clock. */
export const hourShape = /^(?:[01]\d|2[0-3]):[0-5]\d$/

export const usualHour = '02:30'

/** The same as a cron pattern. @throws {RangeError} for no such hour */
export function patternOf(hour: string): string {
  if (!hourShape.test(hour)) throw new RangeError(`patternOf: ${JSON.stringify(hour)}`)
  const [hours, minutes] = hour.split(':')
  return `0 ${Number(minutes)} ${Number(hours)} * * *`
}

const dayMs = 24 * 60 * 60_000

/** Whether one is to be made now, rather than at the next hour: the last is over a day old, or there is none. */
export const isOverdue = (lastMs: number | null, nowMs: number): boolean => lastMs === null || nowMs - lastMs > dayMs

/**
 * Whole days without a good backup that are worth a word: null while the last is young enough. Two nights may be missed by a machine that
 * is off at its hour, and the next start makes one; beyond three days something is wrong.
 */
export function daysWithout(lastGoodMs: number | null, nowMs: number): number | null {
  if (lastGoodMs === null) return null
  const days = Math.floor((nowMs - lastGoodMs) / dayMs)
  return days > 3 ? days : null
}
