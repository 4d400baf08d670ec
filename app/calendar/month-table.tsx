import { formatDate } from '#language/day'
import { say } from '#language/say'
import { type CalendarEvent, eventsByDay, monthAfter, monthWeeks } from '#lib/planning/days/calendar'
import { LinkButton } from '#ui/button'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { eventWords, kindWords, monthWords } from '#words/calendar'
import { weekdayOptions } from '#words/work'
import s from './calendar.module.css'

type MonthTableProps = {
  month: string
  today: string
  firstWeekday: number
  events: readonly CalendarEvent[]
  hrefForMonth: (month: string) => string
}

/** A month as a table, a row to a week; on a phone as a list of the days on which there is something. */
export function MonthTable({ month, today, firstWeekday, events, hrefForMonth }: MonthTableProps) {
  const weeks = monthWeeks(month, firstWeekday)
  const days = weeks.flat()
  const byDay = eventsByDay(events, { fromOn: days[0]?.day ?? '', toOn: days.at(-1)?.day ?? '' })
  const ofMonth = [...byDay].filter(([day]) => day.startsWith(month))
  const names = Array.from({ length: 7 }, (_, at) => weekdayOptions()[(firstWeekday - 1 + at) % 7]?.label ?? '')
  return (
    <Section
      title={monthWords(month)}
      id="month"
      actions={
        <>
          <LinkButton href={hrefForMonth(monthAfter(month, -1))}>{say('Month before')}</LinkButton>
          {month !== today.slice(0, 7) && <LinkButton href={hrefForMonth(today.slice(0, 7))}>{say('This month')}</LinkButton>}
          <LinkButton href={hrefForMonth(monthAfter(month, 1))}>{say('Month after')}</LinkButton>
        </>
      }
    >
      <div className={s.wide}>
        <table className={s.month}>
          <caption className="vh">{say('{month}, day by day', { month: monthWords(month) })}</caption>
          <thead>
            <tr>
              {names.map((name) => (
                <th key={name} scope="col">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {weeks.map((week) => (
              <tr key={week[0]?.day}>
                {week.map(({ day, isOfMonth }) => (
                  <td key={day} data-other={!isOfMonth || undefined} data-today={day === today || undefined}>
                    <span className={s.day}>
                      <span className="vh">{formatDate(day)}</span>
                      <span aria-hidden="true">{Number(day.slice(8))}</span>
                      {day === today && <span className={s.today}>{say('today')}</span>}
                    </span>
                    <Events events={byDay.get(day) ?? []} isShort />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <div className={s.narrow}>
        {ofMonth.length === 0 ? (
          <p className="quiet">{say('Nothing falls in this month.')}</p>
        ) : (
          <ol className={s.days}>
            {ofMonth.map(([day, some]) => (
              <li key={day}>
                <h3 className={s.dayHead}>
                  {formatDate(day)}
                  {day === today && <span className={s.today}>{say('today')}</span>}
                </h3>
                <Events events={some} />
              </li>
            ))}
          </ol>
        )}
      </div>
    </Section>
  )
}

/** Where an event leads; nowhere for what is only a day. */
const hrefOf = (event: CalendarEvent): string | null => {
  switch (event.kind) {
    case 'loan':
    case 'clash':
      return `/loans/${event.loanId}`
    case 'order':
      return '/buy/on-order'
    case 'occasion':
    case 'away':
      return null
    default:
      return `/projects/${event.project.id}`
  }
}

/** What it is about, beside the word for its kind. */
const aboutWords = (event: CalendarEvent): string => {
  switch (event.kind) {
    case 'part-out':
    case 'part-due':
      return `${event.part}, ${event.project.title}`
    case 'loan':
      return event.things.join(', ') || event.placeLabel
    case 'order':
      return event.threads.join(', ')
    case 'occasion':
      return eventWords(event, { namesPeople: true })
    case 'away':
      return event.what ?? ''
    default:
      return event.project.title
  }
}

const needsDoing: ReadonlySet<CalendarEvent['kind']> = new Set(['clash', 'due', 'part-due'])

function Events({ events, isShort = false }: { events: readonly CalendarEvent[]; isShort?: boolean }) {
  if (events.length === 0) return null
  return (
    <ul className={s.events}>
      {events.map((event) => {
        const href = hrefOf(event)
        const words = isShort ? aboutWords(event) : eventWords(event, { namesPeople: true })
        return (
          <li key={event.uid} data-kind={event.kind} data-do={needsDoing.has(event.kind) || undefined}>
            {event.kind !== 'occasion' && <span className={s.kind}>{kindWords[event.kind]}</span>}{' '}
            {href ? (
              <Link href={href}>{words}</Link>
            ) : (
              <span>{isShort || event.kind !== 'away' ? words : (event.what ?? '')}</span>
            )}
          </li>
        )
      })}
    </ul>
  )
}
