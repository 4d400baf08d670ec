import { describe, expect, it } from 'vitest'
import { wishValue } from '#lib/planning/together/wish-value'

const today = '2026-09-07'
const none = { stars: null, dueOn: null, season: null, boughtOn: null }
const wanted = { ...none, isWanted: true }

describe('what a design counts', () => {
  it.each([
    [{ ...none, isWanted: false }, 1],
    // No stars count as three, and a star as two.
    [wanted, 6],
    [{ ...wanted, stars: 1 }, 2],
    [{ ...wanted, stars: 5 }, 10],
    // 91 days on is 7 December; half a year on, 182 days, is 8 March.
    [{ ...wanted, dueOn: '2026-12-07' }, 6 + 4],
    [{ ...wanted, dueOn: '2026-12-08' }, 6 + 2],
    [{ ...wanted, dueOn: '2027-03-08' }, 6 + 2],
    [{ ...wanted, dueOn: '2027-03-09' }, 6],
    [{ ...wanted, dueOn: '2026-08-01' }, 6 + 4],
    [{ ...wanted, season: { theme: 'Winter', weeks: 26 } }, 6 + 3],
    [{ ...wanted, season: { theme: 'Winter', weeks: 27 } }, 6],
    // Anniversaries: the day before the first is none yet.
    [{ ...wanted, boughtOn: '2025-09-08' }, 6],
    [{ ...wanted, boughtOn: '2025-09-07' }, 6 + 1],
    [{ ...wanted, boughtOn: '2019-01-01' }, 6 + 3],
    [{ ...none, isWanted: false, boughtOn: '2024-01-01', season: { theme: 'Autumn', weeks: 2 } }, 1 + 3 + 2],
  ])('%o counts %i', (wish, value) => {
    const worth = wishValue(wish, today)
    expect(worth.value).toBe(value)
    expect(worth.parts.reduce((sum, { points }) => sum + points, 0)).toBe(value)
  })

  it('4 stars, wanted by a near day, of a near season, bought last year: 8 + 4 + 3 + 1', () => {
    const wish = { isWanted: true, stars: 4, dueOn: '2026-12-01', season: { theme: 'Winter', weeks: 15 }, boughtOn: '2025-03-01' }
    expect(wishValue(wish, today)).toEqual({
      value: 16,
      parts: [
        { kind: 'wish', stars: 4, points: 8 },
        { kind: 'due', dueOn: '2026-12-01', points: 4 },
        { kind: 'season', theme: 'Winter', weeks: 15, points: 3 },
        { kind: 'bought', years: 1, points: 1 },
      ],
    })
  })
})
