import fc from 'fast-check'
import { expect, it } from 'vitest'
import { type BackupStanding, planRotation } from '#lib/backup/rotation'

const backups = fc
  .array(
    fc.record({
      at: fc.integer({ min: 0, max: 900 * 24 }),
      check: fc.constantFrom('good' as const, 'bad' as const, 'unchecked' as const),
      kind: fc.constantFrom('scheduled' as const, 'asked' as const, 'before-restore' as const),
      isBroughtIn: fc.boolean(),
    }),
    { maxLength: 40 },
  )
  .map((all) =>
    all.map(({ at, ...rest }, turn): BackupStanding => {
      const madeMs = Date.UTC(2025, 0, 1) + at * 3_600_000
      return { ...rest, name: `b${turn}`, madeMs, day: new Date(madeMs).toISOString().slice(0, 10) }
    }),
  )
const keeping = fc.record({
  days: fc.integer({ min: 1, max: 9 }),
  weeks: fc.integer({ min: 1, max: 6 }),
  months: fc.integer({ min: 1, max: 13 }),
})
const seeded = { seed: 20_261_130, numRuns: 500 }

const isNightly = ({ check, kind, isBroughtIn }: BackupStanding) => check === 'good' && kind !== 'before-restore' && !isBroughtIn

it('the rotation never takes the newest good backup, what was brought in, or anything newer than the newest good', () => {
  fc.assert(
    fc.property(backups, keeping, (all, keep) => {
      const gone = new Set(planRotation(all, keep))
      const newest = all.filter(isNightly).reduce((best, { madeMs }) => Math.max(best, madeMs), Number.NEGATIVE_INFINITY)
      if (newest === Number.NEGATIVE_INFINITY) expect(gone.size).toBe(0)
      else expect(all.some((one) => isNightly(one) && one.madeMs === newest && !gone.has(one.name))).toBe(true)
      for (const one of all) {
        if (one.isBroughtIn) expect(gone.has(one.name)).toBe(false)
        if (one.check !== 'good' && one.kind !== 'before-restore' && one.madeMs >= newest) expect(gone.has(one.name)).toBe(false)
      }
    }),
    seeded,
  )
})

it('the rotation keeps no more than it was told to, leaves every period its last one, and has nothing left to do the second time', () => {
  fc.assert(
    fc.property(backups, keeping, (all, keep) => {
      const left = (some: readonly BackupStanding[]) => {
        const gone = new Set(planRotation(some, keep))
        return some.filter(({ name }) => !gone.has(name))
      }
      const once = left(all)
      expect(left(once)).toEqual(once)
      expect(once.filter(isNightly).length).toBeLessThanOrEqual(keep.days + keep.weeks + keep.months)
      const months = (some: readonly BackupStanding[]) => new Set(some.filter(isNightly).map(({ day }) => day.slice(0, 7)))
      expect(months(once).size).toBeGreaterThanOrEqual(Math.min(keep.months, months(all).size))
    }),
    seeded,
  )
})
