import ical, { ICalCalendarMethod, ICalEventTransparency } from 'ical-generator'
import { addDays } from '#lib/quantity/day'

/** An event of a calendar file, in words. It takes whole days, the first and the last of them. */
export type FileEvent = { uid: string; sequence: number; on: string; toOn: string; summary: string; description: string | null }

/** Longer than this no line of a calendar is read by anybody. */
const mostSummary = 200
const mostDescription = 1_000

/** One line of text: RFC 5545 has no control characters in a value, and a title is not to open a line of its own. */
const plain = (words: string, most: number): string => {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is taken out
  const line = words.replace(/[\u0000-\u001f\u007f\u0085\u2028\u2029]+/gu, ' ').trim()
  // Half a pair has no octets of its own.
  const whole = line.replace(/\p{Cs}/gu, '\ufffd')
  const characters = [...whole]
  return characters.length > most ? `${characters.slice(0, most - 1).join('')}…` : whole
}

const midnight = (day: string): Date => new Date(`${day}T00:00:00Z`)

/**
 * A calendar file (RFC 5545, Internet Calendaring and Scheduling Core Object Specification) of whole days, which take nobody's time. It
 * says the same for the same events and day, so that who fetches it again can be told that nothing has changed.
 *
 * @param today  yyyy-mm-dd: when the events were told
 */
export function writeCalendarFile(name: string, events: readonly FileEvent[], today: string): string {
  const calendar = ical({
    prodId: { company: 'Chart Larder', product: 'By when', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
    name: plain(name, mostSummary),
    // Twice a day: start-by days move with the log.
    ttl: 43_200,
  })
  for (const { uid, sequence, on, toOn, summary, description } of events) {
    calendar.createEvent({
      id: uid,
      sequence,
      stamp: midnight(today),
      start: midnight(on),
      // The day after the last, as the format counts.
      end: midnight(addDays(toOn, 1)),
      allDay: true,
      timezone: 'UTC',
      summary: plain(summary, mostSummary),
      ...(description !== null && { description: plain(description, mostDescription) }),
      transparency: ICalEventTransparency.TRANSPARENT,
    })
  }
  // Every line ends with CRLF, the last too.
  return `${calendar.toString()}\r\n`
}
