import { daysBetween } from '#lib/quantity/day'
import type { BackupKind } from './manifest'

/** How many backups are kept: the last of each of so many days, weeks and months that have one. */
export type Keeping = { days: number; weeks: number; months: number }

export const usualKeeping: Keeping = { days: 7, weeks: 5, months: 12 }

/** How long what was set aside before a restore is kept, counted to the newest good backup. */
const daysSetAside = 31

export type BackupStanding = {
  name: string
  /** The day it was made on, by this machine's calendar: yyyy-mm-dd. */
  day: string
  /** Milliseconds since 1970; tells two of a day apart. */
  madeMs: number
  /** good: restored to a scratch place and found whole; bad: found not to be; unchecked: nobody looked yet. */
  check: 'good' | 'bad' | 'unchecked'
  kind: BackupKind
  /** It was brought in from elsewhere: kept until somebody removes it. */
  isBroughtIn: boolean
}

/** The Monday of a day's week, as yyyy-mm-dd. @throws {RangeError} for no such day */
export function mondayOf(day: string): string {
  const ms = Date.parse(`${day}T00:00:00Z`)
  if (!/^\d{4}-\d\d-\d\d$/.test(day) || Number.isNaN(ms)) throw new RangeError(`mondayOf: ${JSON.stringify(day)}`)
  const sinceMonday = (new Date(ms).getUTCDay() + 6) % 7
  return new Date(ms - sinceMonday * 86_400_000).toISOString().slice(0, 10)
}

const newestFirst = (a: BackupStanding, b: BackupStanding): number =>
  b.madeMs - a.madeMs || (a.name < b.name ? 1 : a.name > b.name ? -1 : 0)

/**
 * Which backups the rotation takes away.
 *
 * Kept is the newest good one of each of the last `days` days, `weeks` weeks (from Monday) and `months` months in which there is a good
 * one: days without a backup take no turn, so a machine that stood still for a year loses nothing by it. Only a backup that was found good
 * takes a turn. So the newest good one always stays, and while nothing newer than a bad or unchecked one is good, nothing makes room for
 * it. A bad or unchecked one goes once a good one is newer than it and the last of the days kept lies after it.
 *
 * What was brought in from elsewhere is not touched. What was set aside before a restore takes no turn, and stays for a month: whoever
 * finds out a week later that it was the wrong one to restore must still have it.
 */
export function planRotation(backups: readonly BackupStanding[], keeping: Keeping): string[] {
  const own = backups.filter(({ isBroughtIn }) => !isBroughtIn).sort(newestFirst)
  const good = own.filter(({ check, kind }) => check === 'good' && kind !== 'before-restore')
  const newest = good[0]
  if (newest === undefined) return []
  const kept = new Set([newest.name])
  const keepLastOf = (periodOf: (backup: BackupStanding) => string, most: number): string | null => {
    const periods = new Set<string>()
    for (const backup of good) {
      const period = periodOf(backup)
      if (periods.has(period)) continue
      if (periods.size >= most) break
      periods.add(period)
      kept.add(backup.name)
    }
    return [...periods].at(-1) ?? null
  }
  const firstDay = keepLastOf(({ day }) => day, keeping.days) ?? newest.day
  keepLastOf(({ day }) => mondayOf(day), keeping.weeks)
  keepLastOf(({ day }) => day.slice(0, 7), keeping.months)
  return own
    .filter((backup) => {
      if (kept.has(backup.name)) return false
      if (backup.kind === 'before-restore') return daysBetween(backup.day, newest.day) > daysSetAside
      return backup.check === 'good' || (backup.madeMs < newest.madeMs && backup.day < firstDay)
    })
    .map(({ name }) => name)
}
