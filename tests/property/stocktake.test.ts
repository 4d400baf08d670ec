import fc from 'fast-check'
import { expect, it } from 'vitest'
import { accuracyOf, type CountedLine, findSwapSuspects, isUndecided, planSignOff } from '#lib/stock/stocktake'

const settings = { seed: 20261129, numRuns: 300 }

const places = ['T1', 'T2', 'T3', 'T4']
/** As they stand in a row. */
const sideBySide = (a: string, b: string) => Math.abs(places.indexOf(a) - places.indexOf(b)) === 1
const codes = ['Ecru', '9', '10', '0017', '17A', '100']

const someLines = fc
  .array(
    fc.record({
      placeId: fc.constantFrom(...places),
      code: fc.option(fc.constantFrom(...codes)),
      expected: fc.nat(4),
      counted: fc.option(fc.nat(4)),
    }),
    { maxLength: 12 },
  )
  .map((rows) =>
    rows.map(
      ({ code, ...row }, index): CountedLine => ({
        ...row,
        id: `l${String(index).padStart(2, '0')}`,
        thread: code === null ? null : { id: code, makerName: 'Larkholm', lineName: 'stranded', code },
      }),
    ),
  )
const shuffled = someLines.chain((lines) =>
  fc.record({ lines: fc.constant(lines), other: fc.shuffledSubarray(lines, { minLength: lines.length }) }),
)

it('answers alike whatever the order of the lines', () => {
  fc.assert(
    fc.property(shuffled, ({ lines, other }) => {
      expect(accuracyOf(other)).toEqual(accuracyOf(lines))
      expect(findSwapSuspects(other, sideBySide)).toEqual(findSwapSuspects(lines, sideBySide))
    }),
    settings,
  )
})

it('never sets over off against under', () => {
  fc.assert(
    fc.property(someLines, (lines) => {
      const whole = accuracyOf(lines)
      // Line by line, no error can meet another.
      const alone = lines.map((line) => accuracyOf([line]))
      expect(whole.grossError).toBe(alone.reduce((sum, { grossError }) => sum + grossError, 0))
      expect(whole.linesRight).toBe(alone.filter(({ linesRight }) => linesRight === 1).length)
      expect(whole.grossError).toBeGreaterThanOrEqual(Math.abs(whole.counted - whole.expected))
      expect(whole.grossError === 0).toBe(whole.linesRight === whole.linesCounted)
    }),
    settings,
  )
})

it('suspects only one under and one over by as much, and every such pair in one place', () => {
  fc.assert(
    fc.property(someLines, (lines) => {
      const suspects = findSwapSuspects(lines, sideBySide)
      const byId = new Map(lines.map((line) => [line.id, line]))
      for (const { underId, overId, putUps } of suspects) {
        const [under, over] = [byId.get(underId) as CountedLine, byId.get(overId) as CountedLine]
        expect(putUps).toBeGreaterThan(0)
        expect(under.expected - (under.counted as number)).toBe(putUps)
        expect((over.counted as number) - over.expected).toBe(putUps)
      }
      const named = new Set(suspects.map(({ underId, overId }) => `${underId} ${overId}`))
      for (const a of lines) {
        for (const b of lines) {
          if (a.counted === null || b.counted === null || a.counted >= a.expected) continue
          if (a.placeId === b.placeId && a.expected - a.counted === b.counted - b.expected) {
            expect(named.has(`${a.id} ${b.id}`)).toBe(true)
          }
        }
      }
    }),
    settings,
  )
})

it('is signed off only by another person, and with nothing undecided', () => {
  const people = ['Ines Coldwell', 'Hanne Drewitt', 'Nell Oxtoby']
  const decided = fc.record({
    expected: fc.nat(3),
    counted: fc.option(fc.nat(3)),
    countedBy: fc.option(fc.constantFrom(...people)),
    outcome: fc.option(fc.constantFrom('accepted' as const, 'recount' as const, 'left' as const)),
  })
  fc.assert(
    fc.property(fc.array(decided, { maxLength: 6 }), fc.constantFrom(...people), (lines, by) => {
      const mayBe = planSignOff('counted', lines, `  ${by.toUpperCase()} `)
      const isDecided = lines.every((line) => !isUndecided(line))
      expect(mayBe.ok).toBe(isDecided && lines.every(({ countedBy }) => countedBy !== by))
      expect(planSignOff('open', lines, by).ok).toBe(false)
    }),
    settings,
  )
})
