import { describe, expect, it } from 'vitest'
import { isCounterSale, type UseMovement, weeklySales } from '#lib/stock/weekly-sales'
import { skein } from './batches'

const until = new Date('2026-09-07T12:00:00Z')
const daysAgo = (days: number) => new Date(until.getTime() - days * 24 * 60 * 60 * 1_000)
const used = (change: Partial<UseMovement> = {}): UseMovement => ({
  at: daysAgo(1),
  kind: 'use',
  strandTenths: -skein,
  projectId: null,
  reason: null,
  ...change,
})

describe('isCounterSale', () => {
  it('takes what was used for no project, or marked sold', () => {
    expect(isCounterSale(used())).toBe(true)
    expect(isCounterSale(used({ projectId: 'rooks' }))).toBe(false)
    expect(isCounterSale(used({ projectId: 'rooks', reason: 'Sold with the kit' }))).toBe(true)
    expect(isCounterSale(used({ kind: 'correct', reason: 'sold, not written down' }))).toBe(true)
    expect(isCounterSale(used({ kind: 'correct', reason: 'lost' }))).toBe(false)
    expect(isCounterSale(used({ kind: 'correct', reason: 'sold', strandTenths: skein }))).toBe(false)
    expect(isCounterSale(used({ reason: 'unsold' }))).toBe(true)
  })
})

describe('weeklySales', () => {
  it('gives mean and spread of whole weeks, those without a sale too', () => {
    // Weeks of 2, 4, 4 and 6: mean 4, squares of the differences 4 + 0 + 0 + 4 over 3, root 1.633.
    const movements = [
      ...[1, 2].map((day) => used({ at: daysAgo(day) })),
      ...[8, 9, 10, 13].map((day) => used({ at: daysAgo(day) })),
      used({ at: daysAgo(15), strandTenths: -4 * skein }),
      used({ at: daysAgo(22), strandTenths: -6 * skein }),
      used({ at: daysAgo(29), strandTenths: -50 * skein }),
    ]
    const asked = { movements, putUpStrandTenths: skein, until, weeks: 4, heldSince: daysAgo(400) }
    expect(weeklySales(asked)).toEqual({ weeks: 4, soldPutUps: 16, demandHundredths: 400, spreadHundredths: 163 })
    expect(weeklySales({ ...asked, weeks: 5 })?.soldPutUps).toBe(66)
  })

  it('leaves out the weeks before the thread first came in, and says nothing of too few weeks or no sale', () => {
    const asked = { movements: [used()], putUpStrandTenths: skein, until }
    expect(weeklySales({ ...asked, heldSince: daysAgo(43) })?.weeks).toBe(6)
    expect(weeklySales({ ...asked, heldSince: daysAgo(20) })).toBeNull()
    expect(weeklySales({ ...asked, heldSince: null })).toBeNull()
    expect(weeklySales({ ...asked, movements: [], heldSince: daysAgo(400) })).toBeNull()
  })
})
