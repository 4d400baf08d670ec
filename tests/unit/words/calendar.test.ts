import { expect, it } from 'vitest'
import type { CalendarEvent } from '#lib/planning/days/calendar'
import { eventWords, fileEvents, lateWords } from '#words/calendar'
import { storedRuleWords } from '#words/occasion'

const at = (uid: string) => ({ uid, sequence: 0, on: '2027-03-28', toOn: '2027-03-28' })
const project = { id: 'j1', title: 'Winter Post' }
const loan: CalendarEvent = {
  ...{ ...at('loan'), kind: 'loan', loanId: 'l1', isBorrowed: false, placeLabel: 'Ines Coldwell', things: ['Three Jugs'] },
}
const occasion = (name: string, isOwn = false): CalendarEvent => ({ ...at(name), kind: 'occasion', name, isOwn })

it('names people only on the screen', () => {
  expect(eventWords(loan, { namesPeople: true })).toBe('Three Jugs: due back from Ines Coldwell')
  expect(eventWords(loan, { namesPeople: false })).toBe('Three Jugs: due back')
  const away: CalendarEvent = { ...at('away'), kind: 'away', what: 'at the sea', ownerName: 'Hanne Drewitt' }
  expect(eventWords(away, { namesPeople: false })).toBe('Away: at the sea')
})

it('says to begin or to go on, and at which paces', () => {
  const start: CalendarEvent = { ...at('s'), kind: 'start-by', project, paces: ['stitched-weeks', 'all-weeks'], isBegun: false }
  expect(eventWords(start, { namesPeople: true })).toBe(
    'Winter Post: start by today, at the pace of the weeks you stitched and of all weeks',
  )
  expect(eventWords({ ...start, isBegun: true, paces: ['said'] }, { namesPeople: true })).toBe(
    'Winter Post: go on by today, at the pace you say',
  )
})

it('keeps in a file what is to be done, and of feasts only her own and those she works for', () => {
  const due: CalendarEvent = { ...at('due'), kind: 'due', project, occasion: 'Easter' }
  const order: CalendarEvent = { ...at('order'), kind: 'order', supplier: 'somebody', threads: ['Larkholm 0311'], putUps: 2 }
  const kept = fileEvents([due, order, loan, occasion('Easter'), occasion('Halloween'), occasion('Guild fair', true)])
  expect(kept.map(({ summary }) => summary)).toEqual([
    'Winter Post: due, for Easter',
    'Three Jugs: due back',
    'Easter',
    'Guild fair',
  ])
})

it('says how late in days or weeks', () => {
  expect([5, 7, 14, 15, 28].map(lateWords)).toEqual([
    '5 days late',
    '1 week late',
    '2 weeks late',
    '3 weeks late',
    '4 weeks late',
  ])
})

it.each([
  ['12-24', '24 December'],
  ['easter', 'Easter Sunday'],
  ['easter-47', '47 days before Easter'],
  ['last monday of 5', 'the last Monday of May'],
  ['sunday nearest 11-30', 'the Sunday nearest 30 November'],
  ['sunday nearest 11-30-7', '7 days before the Sunday nearest 30 November'],
  ['2027-05-14', 'once, Fri 14 May 2027'],
])('%s is %s', (rule, words) => expect(storedRuleWords(rule)).toBe(words))
