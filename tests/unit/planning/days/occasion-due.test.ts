import { expect, it } from 'vitest'
import { dueForOccasion } from '#lib/planning/days/occasion-due'

const world = { country: 'GB', own: [{ id: 'own-1', name: 'Christening', rule: '2026-05-14' }] } as const
const ask = (was: [string | null, string | null], said: [string | null, string | null], today = '2026-11-30') =>
  dueForOccasion({
    ...{ was: { occasionKey: was[0], dueOn: was[1] }, said: { occasionKey: said[0], dueOn: said[1] }, today },
    world,
  })
const due = (occasionKey: string | null, dueOn: string | null) => ({ ok: true, value: { occasionKey, dueOn } })

it('sets the day to the next one of an occasion chosen', () => {
  expect(ask([null, null], ['easter', null])).toEqual(due('easter', '2027-03-28'))
  expect(ask(['christmas', '2026-12-25'], ['easter', '2026-12-25'])).toEqual(due('easter', '2027-03-28'))
})
it('keeps a day typed along with it', () =>
  expect(ask([null, null], ['easter', '2028-04-16'])).toEqual(due('easter', '2028-04-16')))
it('keeps a day changed later, and the occasion with it', () =>
  expect(ask(['easter', '2027-03-28'], ['easter', '2027-03-21'])).toEqual(due('easter', '2027-03-21')))
it('lets an occasion go and keeps the day', () =>
  expect(ask(['easter', '2027-03-28'], [null, '2027-03-28'])).toEqual(due(null, '2027-03-28')))
it('refuses what is not known, and a day that came once', () => {
  expect(ask([null, null], ['thanksgiving', null])).toMatchObject({ error: { kind: 'no-such-occasion' } })
  expect(ask([null, null], ['own-1', null])).toMatchObject({ error: { kind: 'occasion-over' } })
  expect(ask([null, null], ['own-1', null], '2026-05-01')).toEqual(due('own-1', '2026-05-14'))
})
