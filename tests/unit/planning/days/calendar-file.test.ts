import ICAL from 'ical.js'
import { describe, expect, it } from 'vitest'
import { type FileEvent, writeCalendarFile } from '#lib/planning/days/calendar-file'

// RFC 5545: 3.1 lines end with CRLF and are no longer than 75 octets without it, a longer one folded by CRLF and a space, and no character
// parted in its octets; 3.3.11 how text is escaped; 3.6.1 an event's end is the day after its last; 3.8.4.7 one UID for one event.

const today = '2026-11-30'
const event = (more: Partial<FileEvent> = {}): FileEvent => ({
  ...{ uid: 'due-1@chart-larder', sequence: 0, on: '2026-12-01', toOn: '2026-12-01', summary: 'Due', description: null },
  ...more,
})

const hostile = [
  'Comma, semicolon; colon: back\\slash "quoted"',
  'two\r\nlines\nand\rmore\u2028and\u0085more',
  'BEGIN:VEVENT\r\nUID:other\r\nEND:VEVENT',
  'bell \u0007 null \u0000 delete \u007f',
  '🧵🪡 an owl 🦉 of many bytes, '.repeat(12),
  'é'.repeat(150),
  'a lone half \ud83e of a pair',
  'x'.repeat(10_000),
  'שלום مرحبا 針と糸',
  '',
]

const octets = (line: string): number => new TextEncoder().encode(line).length

function parsed(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text))
  return { calendar, events: calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one)) }
}

describe('a calendar file', () => {
  const text = writeCalendarFile(
    'By when: Hanne, of Tarnbeck',
    hostile.map((summary, at) => event({ uid: `due-${at}@chart-larder`, summary, description: summary, sequence: at })),
    today,
  )

  it('has lines of at most 75 octets, each ended by CRLF, and no character parted', () => {
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true)
    const lines = text.slice(0, -2).split('\r\n')
    for (const line of lines) {
      expect(line).not.toMatch(/[\r\n]/)
      expect(octets(line)).toBeLessThanOrEqual(75)
      expect(line).not.toMatch(/\p{Cs}/u)
    }
  })

  it('is read back by another library, each event with what it said', () => {
    const { calendar, events } = parsed(text)
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0')
    expect(calendar.getFirstPropertyValue('method')).toBe('PUBLISH')
    expect(calendar.getFirstPropertyValue('prodid')).toContain('Chart Larder')
    expect(events.map(({ uid }) => uid)).toEqual(hostile.map((_, at) => `due-${at}@chart-larder`))
    expect(events[0]?.summary).toBe('Comma, semicolon; colon: back\\slash "quoted"')
    expect(events[1]?.summary).toBe('two lines and more and more')
    expect(events[2]?.summary).toBe('BEGIN:VEVENT UID:other END:VEVENT')
    expect(events[3]?.summary).toBe('bell   null   delete')
    expect(events[5]?.summary).toBe('é'.repeat(150))
    expect(events[6]?.summary).toBe('a lone half \ufffd of a pair')
    expect([...(events[7]?.summary ?? '')]).toHaveLength(200)
    expect(events[8]?.summary).toBe('שלום مرحبا 針と糸')
    expect(events[3]?.sequence).toBe(3)
  })

  it('gives whole days, the end the day after the last', () => {
    const { events } = parsed(writeCalendarFile('x', [event({ on: '2026-12-24', toOn: '2027-01-02' })], today))
    const [one] = events
    expect(one?.startDate.isDate).toBe(true)
    expect(one?.startDate.toString()).toBe('2026-12-24')
    expect(one?.endDate.toString()).toBe('2027-01-03')
    expect(one?.component.getFirstPropertyValue('dtstamp')?.toString()).toBe('2026-11-30T00:00:00Z')
    expect(one?.component.getFirstPropertyValue('transp')).toBe('TRANSPARENT')
  })

  it('says the same of the same, and is a calendar with nothing in it too', () => {
    expect(writeCalendarFile('x', [event()], today)).toBe(writeCalendarFile('x', [event()], today))
    expect(parsed(writeCalendarFile('x', [], today)).events).toEqual([])
  })
})
