import fc from 'fast-check'
import { expect, it } from 'vitest'
import { inOrderDone, type LoggedWork, notInLog, planLog, sumOfLog } from '#lib/project/work-log'

const settings = { seed: 20261130, numRuns: 500 }

const work = fc.record({
  day: fc.constantFrom('2026-11-01', '2026-11-02', '2026-11-03', '2026-12-31'),
  stitches: fc.integer({ min: 0, max: 400 }),
  minutes: fc.integer({ min: 0, max: 200 }),
  donePerMille: fc.option(fc.integer({ min: 0, max: 1_000 }), { freq: 3 }),
})
const act = fc.oneof(
  fc.record({ does: fc.constant('log' as const), work }),
  fc.record({ does: fc.constant('edit' as const), which: fc.nat(20), work }),
  fc.record({ does: fc.constant('remove' as const), which: fc.nat(20) }),
)

it('keeps the totals what no entry accounts for and the sum of the log, whatever is logged, edited and removed', () => {
  fc.assert(
    fc.property(
      fc.record({ stitchesDone: fc.integer({ min: 0, max: 9_000 }), hoursTenths: fc.integer({ min: 0, max: 900 }) }),
      fc.option(fc.integer({ min: 10_000, max: 20_000 })),
      fc.array(act, { maxLength: 25 }),
      (opening, stitchesTotal, acts) => {
        let totals = opening
        let log: LoggedWork[] = []
        for (const [turn, one] of acts.entries()) {
          const before = log
          const at = 'which' in one && log.length > 0 ? one.which % log.length : -1
          if (one.does === 'log') log = [...log, { id: String(turn).padStart(3, '0'), ...one.work }]
          else if (at < 0) continue
          else if (one.does === 'edit') log = log.map((entry, place) => (place === at ? { id: entry.id, ...one.work } : entry))
          else log = log.filter((_, place) => place !== at)
          const planned = planLog({ totals, before, after: log, stitchesTotal })
          const stitches = new Map(planned.settled.map((settled) => [settled.id, settled.stitches]))
          log = log.map((entry) => ({ ...entry, stitches: stitches.get(entry.id) ?? entry.stitches }))
          totals = planned.totals
          // Nothing here is unpicked but by a percentage, which never leads below nought.
          expect(notInLog(totals, log)).toEqual(opening)
          expect(totals.hoursTenths).toBe(opening.hoursTenths + sumOfLog(log).hoursTenths)
          // After the last percentage the count stands where it says, and what was counted since.
          const done = inOrderDone(log)
          const last = done.findLastIndex(({ donePerMille }) => donePerMille !== null)
          if (last >= 0 && stitchesTotal !== null) {
            const said = Math.round((stitchesTotal * (done[last]?.donePerMille as number)) / 1_000)
            expect(totals.stitchesDone).toBe(said + sumOfLog(done.slice(last + 1)).stitchesDone)
          }
        }
      },
    ),
    settings,
  )
})
