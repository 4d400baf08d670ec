import { expect, it } from 'vitest'
import { wishValue } from '#lib/planning/wish-value'

const today = '2026-09-07'

it.each([
  [{ isWanted: false, dueOn: null }, 1, 'plain'],
  [{ isWanted: true, dueOn: null }, 3, 'wanted'],
  // 91 days on is 7 December; half a year on, 182 days, is 8 March.
  [{ isWanted: true, dueOn: '2026-12-07' }, 5, 'due soon'],
  [{ isWanted: true, dueOn: '2026-12-08' }, 4, 'due'],
  [{ isWanted: true, dueOn: '2027-03-08' }, 4, 'due'],
  [{ isWanted: true, dueOn: '2027-03-09' }, 3, 'wanted'],
  [{ isWanted: true, dueOn: '2026-08-01' }, 5, 'due soon'],
] as const)('%o counts %i', (wish, value, because) => {
  expect(wishValue(wish, today)).toEqual({ value, because })
})
