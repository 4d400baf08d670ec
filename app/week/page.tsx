import type { Metadata } from 'next'
import { z } from 'zod'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readWeek, type Week } from '#lib/db/planning/days/read-week'
import { addDays } from '#lib/quantity/day'
import { LinkButton } from '#ui/button'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { capital } from '#words/capital'
import { calendarDay } from '#words/date'
import { givenName } from '#words/given'
import { minutesWords } from '#words/work'
import s from './week.module.css'

export const generateMetadata = (): Metadata => ({ title: say('The week') })

const querySchema = z.object({ to: z.iso.date().optional().catch(undefined) })

type WeekPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

/** What happened in seven days, and what the seven after them bring: to be read on the screen or on paper. */
export default async function WeekPage({ searchParams }: WeekPageProps) {
  const { to } = querySchema.parse(await searchParams)
  const today = calendarDay(new Date())
  const day = to ?? today
  const { ownerIds, ownerName } = await getViewer()
  const week = await readWeek({ ownerIds, day, today })
  const happened = linesOfPast(week)
  const comes = linesOfNext(week)
  return (
    <>
      <PageHead
        title={day === today ? say('The week') : say('The week to {day}', { day: formatDate(day) })}
        crumbs={[{ label: say('Find'), href: '/' }, { label: say('The week') }]}
        byline={
          ownerName &&
          say('For {ownerName}: what happened from {fromOn}, and what comes until {toOn}.', {
            ownerName,
            fromOn: formatDate(week.past.fromOn),
            toOn: formatDate(week.next.toOn),
          })
        }
        actions={
          <>
            <LinkButton href={`/week?to=${addDays(day, -7)}`}>{say('A week back')}</LinkButton>
            {day < today && (
              <LinkButton href={addDays(day, 7) >= today ? '/week' : `/week?to=${addDays(day, 7)}`}>
                {say('A week on')}
              </LinkButton>
            )}
          </>
        }
      />
      <PrintLine>
        {sayParts('The week of {ownerName}, {fromOn} to {day}', {
          ownerName,
          fromOn: formatDate(week.past.fromOn),
          day: formatDate(day),
        })}
      </PrintLine>
      <Section
        title={say('What happened')}
        note={say('{fromOn} to {toOn}', { fromOn: formatDate(week.past.fromOn), toOn: formatDate(week.past.toOn) })}
      >
        <Lines
          lines={happened}
          label={say('What happened')}
          empty={say('Nothing was stitched, begun, finished, bought or moved in these days.')}
        />
      </Section>
      <Section
        title={say('What comes')}
        note={say('{fromOn} to {toOn}', { fromOn: formatDate(week.next.fromOn), toOn: formatDate(week.next.toOn) })}
      >
        <Lines lines={comes} label={say('What comes')} empty={say('Nothing is due, expected or to be begun in these days.')} />
      </Section>
    </>
  )
}

type Line = { key: string; head: string; body: React.ReactNode }

function Lines({ lines, label, empty }: { lines: readonly Line[]; label: string; empty: string }) {
  return lines.length === 0 ? (
    <p className="quiet">{empty}</p>
  ) : (
    <dl className={s.lines} aria-label={label}>
      {lines.map(({ key, head, body }) => (
        <div key={key}>
          <dt>{head}</dt>
          <dd>{body}</dd>
        </div>
      ))}
    </dl>
  )
}

const Work = ({ id, title }: { id: string; title: string }) => (
  <Link href={`/projects/${id}`} className="title">
    {title}
  </Link>
)

/** Some things, one under the other, each with its own words. */
const Items = ({ items }: { items: readonly { key: string; node: React.ReactNode }[] }) => (
  <ul>
    {items.map(({ key, node }) => (
      <li key={key}>{node}</li>
    ))}
  </ul>
)

function linesOfPast({ past }: Week): Line[] {
  const { stitched, started, finished, sums } = past
  const stitches = stitched.reduce((sum, one) => sum + one.stitches, 0)
  const minutes = stitched.reduce((sum, one) => sum + one.minutes, 0)
  const received = [
    sums.received.thread > 0 && counted(sums.received.thread, 'put-up'),
    sums.received.cloth > 0 && say('{cloth, plural, one {# piece} other {# pieces}} of cloth', { cloth: sums.received.cloth }),
    sums.received.chart > 0 && counted(sums.received.chart, 'chart'),
    sums.received.notion > 0 && counted(sums.received.notion, 'notion'),
  ].filter((words) => words !== false)
  return [
    ...(stitched.length > 0
      ? [
          {
            key: 'stitched',
            head: [say('Stitched'), stitches > 0 && counted(stitches, 'stitch'), minutes > 0 && minutesWords(minutes)]
              .filter(Boolean)
              .join(', '),
            body: (
              <Items
                items={stitched.map((one) => ({
                  key: one.id,
                  node: (
                    <>
                      <Work {...one} />:{' '}
                      {[
                        one.stitches !== 0 && counted(one.stitches, 'stitch'),
                        one.minutes > 0 && minutesWords(one.minutes),
                        say('on {days, plural, one {# day} other {# days}}', { days: one.days }),
                      ]
                        .filter(Boolean)
                        .join(', ')}
                    </>
                  ),
                }))}
              />
            ),
          },
        ]
      : []),
    ...worksLine('finished', say('Finished'), finished),
    ...worksLine('started', say('Started'), started),
    ...(received.length > 0 ? [{ key: 'received', head: say('Came in'), body: listed(received) }] : []),
    ...(sums.takenOut > 0 ? [{ key: 'out', head: say('Taken out'), body: counted(sums.takenOut, 'thing') }] : []),
    ...(sums.cameBack > 0 ? [{ key: 'back', head: say('Came back'), body: counted(sums.cameBack, 'thing') }] : []),
  ]
}

const worksLine = (
  key: string,
  head: string,
  works: readonly { id: string; title: string; on: string; quantity?: number }[],
): Line[] =>
  works.length === 0
    ? []
    : [
        {
          key,
          head,
          body: (
            <Items
              items={works.map((one) => ({
                key: one.id,
                node: (
                  <>
                    <Work {...one} />
                    {(one.quantity ?? 1) > 1 && ` × ${one.quantity}`}, {formatDate(one.on)}
                  </>
                ),
              }))}
            />
          ),
        },
      ]

function linesOfNext({ next }: Week): Line[] {
  const { due, startBy, loans, parts, orders, away, occasions } = next
  return [
    ...worksLine('due', say('Due'), due),
    ...worksLine('start-by', say('To be started by'), startBy),
    ...(parts.length > 0
      ? [
          {
            key: 'parts',
            head: say('Parts due'),
            body: (
              <Items
                items={parts.map((part) => ({
                  key: `${part.id} ${part.name}`,
                  node: (
                    <>
                      <Work {...part} />, {part.name}: {formatDate(part.on)}
                    </>
                  ),
                }))}
              />
            ),
          },
        ]
      : []),
    ...(loans.length > 0
      ? [
          {
            key: 'loans',
            head: say('Loans due'),
            body: (
              <Items
                items={loans.map(({ id, label, kind, on }) => ({
                  key: id,
                  node: (
                    <>
                      <Link href={`/loans/${id}`}>
                        {kind === 'borrow' ? say('To be given back to {label}', { label }) : say('Back from {label}', { label })}
                      </Link>
                      , {formatDate(on)}
                    </>
                  ),
                }))}
              />
            ),
          },
        ]
      : []),
    ...(orders.length > 0
      ? [
          {
            key: 'orders',
            head: say('Orders expected'),
            body: (
              <Items
                items={orders.map(({ id, threadId, threadName, putUps, on }) => ({
                  key: id,
                  node: (
                    <>
                      <Link href={`/threads/${threadId}`}>{threadName}</Link>, {counted(putUps, 'put-up')}, {formatDate(on)}
                    </>
                  ),
                }))}
              />
            ),
          },
        ]
      : []),
    ...(away.length > 0
      ? [
          {
            key: 'away',
            head: say('Away'),
            body: (
              <Items
                items={away.map(({ id, fromOn, toOn, what, ownerName }) => ({
                  key: id,
                  node: `${ownerName}, ${fromOn === toOn ? formatDate(fromOn) : say('{fromOn} to {toOn}', { fromOn: formatDate(fromOn), toOn: formatDate(toOn) })}${what ? `: ${what}` : ''}`,
                }))}
              />
            ),
          },
        ]
      : []),
    ...(occasions.length > 0
      ? [
          {
            key: 'occasions',
            head: say('Days'),
            body: (
              <Items
                items={occasions.map(({ key, name, on }) => ({ key, node: `${capital(givenName(name))}, ${formatDate(on)}` }))}
              />
            ),
          },
        ]
      : []),
  ]
}
