import type { Metadata } from 'next'
import { headers } from 'next/headers'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readOccasionWorld } from '#lib/db/planning/days/occasions'
import { readCalendar, readPlanClashes } from '#lib/db/planning/days/read-calendar'
import { readThemedWishes } from '#lib/db/planning/days/read-ready'
import { type OwnerSchedule, readSchedules, type WorkToStitch } from '#lib/db/planning/pace/read-schedule'
import { monthAfter, monthWeeks } from '#lib/planning/days/calendar'
import type { OccasionWorld } from '#lib/planning/days/occasions'
import type { PaceKind } from '#lib/planning/pace/project-pace'
import { addDays } from '#lib/quantity/day'
import { TrayWord } from '#trade/tray'
import { Button, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { lateWords, monthWords, paceWords, spanWords } from '#words/calendar'
import { listStateWords } from '#words/cover'
import { calendarDay } from '#words/date'
import { clashDays } from '#words/loan'
import { dueWords } from '#words/occasion'
import { StartList, type StartRow } from '../_planning/start-list'
import s from './calendar.module.css'
import { FeedSection } from './feed-section'
import { MonthTable } from './month-table'
import { PartsDue } from './parts-due'
import { type CalendarQuery, calendarQuerySchema } from './schema'

export const generateMetadata = (): Metadata => ({ title: say('By when') })

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

/** As many months can be asked for. */
const monthsOffered = 14

export default async function CalendarPage({ searchParams }: PageProps) {
  const query = calendarQuerySchema.parse(await searchParams)
  const { settings, ownerIds, ownerName, owners } = await getViewer()
  const today = calendarDay(new Date())
  const { firstWeekday } = settings.planning
  // At its end a month is mostly gone by: the one the coming week ends in.
  const month = query.month ?? query.for ?? addDays(today, 6).slice(0, 7)
  const [schedules, world, host] = await Promise.all([
    readSchedules(ownerIds, { today, perWeek: query['per-week'] }),
    readOccasionWorld(ownerIds),
    addressHere(),
  ])
  const days = monthWeeks(month, firstWeekday).flat()
  const span = { fromOn: days[0]?.day ?? today, toOn: days.at(-1)?.day ?? today }
  const [events, clashes] = await Promise.all([
    readCalendar({ ownerIds, schedules, world, ...span, today }),
    readPlanClashes(schedules, today),
  ])
  const titles = new Map(schedules.flatMap(({ works }) => works.map(({ id, title }) => [id, title])))
  const hasPace = schedules.some(({ paces }) => paces.length > 0)
  return (
    <>
      <PageHead
        title={say('By when')}
        byline={ownerName && say('What {ownerName} has to stitch, and when it must be begun to be ready.', { ownerName })}
        actions={
          <>
            <LinkButton href="/calendar/ready">{say('What can be ready by a day')}</LinkButton>
            <LinkButton href="/settings#occasions">{say('Occasions')}</LinkButton>
            <LinkButton download href="/calendar/file.ics">
              {say('Calendar file')}
            </LinkButton>
          </>
        }
      />
      <PrintLine>{sayParts('By when: {ownerName}, {today}', { ownerName, today: formatDate(today) })}</PrintLine>
      <ForForm query={query} today={today} />
      {schedules.map((schedule) => (
        <StartSection
          key={schedule.owner.id}
          schedule={schedule}
          schedules={schedules}
          world={world}
          query={query}
          today={today}
          isAlone={schedules.length === 1}
        />
      ))}
      {!hasPace && (
        <p className="quiet">
          {say(
            'Nothing is logged yet that a pace could be reckoned from. Log what you stitch, or say above how much you will do a week.',
          )}
        </p>
      )}
      {clashes.length > 0 && (
        <Section title={say('Plans that clash with a loan')} id="clashes">
          <ul className={s.plain}>
            {clashes.map(({ projectId, loanId, placeLabel, clash }) => (
              <li key={`${projectId} ${loanId}`}>
                {sayParts('{titles}: its chart is <link>with {placeLabel}</link>, {clashDays}', {
                  titles: (
                    <Link href={`/projects/${projectId}`} className="title">
                      {titles.get(projectId)}
                    </Link>
                  ),
                  link: (words) => <Link href={`/loans/${loanId}`}>{words}</Link>,
                  placeLabel,
                  clashDays: <span className="do">{clashDays(clash)}</span>,
                })}
              </li>
            ))}
          </ul>
        </Section>
      )}
      <PartsDue schedules={schedules} today={today} />
      <MonthTable
        month={month}
        today={today}
        firstWeekday={firstWeekday}
        events={events}
        hrefForMonth={(other) => `/calendar?${queryText({ ...query, month: other })}#month`}
      />
      <FeedSection owners={owners.filter(({ id }) => ownerIds.includes(id))} here={host} />
    </>
  )
}

function queryText(query: CalendarQuery): string {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(query)) if (value !== null) search.set(name, String(value))
  return search.toString()
}

/** Where this is served, as the browser that asks sees it. */
async function addressHere(): Promise<string> {
  const asked = await headers()
  return `${asked.get('x-forwarded-proto') ?? 'http'}://${asked.get('host') ?? 'localhost'}`
}

/** A month to look at alone, and a pace to try. */
const ForForm = ({ query, today }: { query: CalendarQuery; today: string }) => (
  <form className={s.say} action="/calendar" aria-label={say('Which month, at what pace')}>
    <label>
      {say('What must be begun for')}
      <select name="for" defaultValue={query.for ?? ''}>
        <option value="">{say('everything due')}</option>
        {Array.from({ length: monthsOffered }, (_, at) => monthAfter(today.slice(0, 7), at)).map((month) => (
          <option key={month} value={month}>
            {monthWords(month)}
          </option>
        ))}
      </select>
    </label>
    <label>
      {say('If I stitch so many a week')}
      <input name="per-week" inputMode="numeric" autoComplete="off" size={8} defaultValue={query['per-week'] ?? ''} />
    </label>
    <Button type="submit">{say('Show')}</Button>
  </form>
)

type StartSectionProps = {
  schedule: OwnerSchedule
  schedules: readonly OwnerSchedule[]
  world: OccasionWorld
  query: CalendarQuery
  today: string
  isAlone: boolean
}

async function StartSection({ schedule, world, query, today, isAlone }: StartSectionProps) {
  const due = schedule.works.filter(
    ({ dueOn, parts }) =>
      (dueOn !== null || parts.some((part) => part.dueOn !== null)) && (query.for === null || dueOn?.startsWith(query.for)),
  )
  const engine = query.for === null ? null : (await getAnswers()).coverage([schedule.owner.id])
  const wishes = query.for === null ? [] : await readWishes(schedule, query.for, world, today)
  const rows = [
    ...due.map((work): StartRow => ({ ...rowOf(work, schedule, world), cover: engine && <Cover engine={engine} work={work} /> })),
    ...wishes,
  ]
  const kinds = schedule.paces.map(({ kind }) => kind)
  const about = query.for === null ? say('what is due') : monthWords(query.for)
  return (
    <Section
      title={say('Start by{isAlone}', { isAlone: isAlone ? '' : `: ${schedule.owner.name}` })}
      id={isAlone ? 'start' : undefined}
      note={query.for === null ? say('for all that is due') : say('for what is due in {about}, or themed for it', { about })}
    >
      {rows.length === 0 ? (
        <Empty
          title={query.for === null ? say('Nothing is due') : say('Nothing for {about}', { about })}
          actions={<LinkButton href="/projects">{say('Give a project its day')}</LinkButton>}
        >
          {query.for === null
            ? say(
                'Give a project a day it is due, or an occasion it is to be ready for: then it stands here with the last day to begin it.',
              )
            : say('No project is due then, and no wish has a season’s theme that falls in it.')}
        </Empty>
      ) : (
        <>
          <Slips schedule={schedule} />
          <StartList
            caption={say('What must be begun, by when{isAlone}', { isAlone: isAlone ? '' : `: ${schedule.owner.name}` })}
            rows={rows}
            kinds={kinds}
            today={today}
            hasCover={query.for !== null}
          />
          <Room schedule={schedule} today={today} />
        </>
      )}
    </Section>
  )
}

const rowOf = (work: WorkToStitch, schedule: OwnerSchedule, world: OccasionWorld): StartRow => ({
  ...{ key: work.id, projectId: work.id, title: work.title, isBegun: work.startedOn !== null },
  ...{ left: work.left, deadline: work.deadline, atPaces: schedule.atPaces.get(work.id) ?? [] },
  note: [
    work.forWhom && say('for {forWhom}', { forWhom: work.forWhom }),
    work.left === 0
      ? say('stitched; the day is for its finishing')
      : work.left === null
        ? say('nobody knows how many stitches it has')
        : null,
    work.left !== null && work.left > 0 && say('{left, plural, one {# stitch} other {# stitches}} left', { left: work.left }),
  ]
    .filter(Boolean)
    .join(' · '),
  due: dueWords(work, world) ?? say('by its parts'),
})

type CoverProps = {
  engine: ReturnType<Answers['coverage']>
  work: Pick<WorkToStitch, 'id' | 'designId' | 'threadListId' | 'status'>
}

/** Whether the threads of what is not kitted yet are there, and where to see what has to be bought first. */
function Cover({ engine, work: { id, designId, threadListId, status } }: CoverProps) {
  if (status !== 'wanted' && status !== 'planned') return <span className="quiet">{say('in its bag')}</span>
  const answer = engine.answerFor(designId)
  const list = answer?.lists.find(({ listId }) => listId === threadListId) ?? answer?.best
  if (!list) return <TrayWord state="unknown" word={say('No thread list')} />
  const { state, word, note } = listStateWords(list)
  return (
    <>
      <TrayWord state={state} word={word} note={note} />
      {list.shortPutUps + list.lotPutUps > 0 && <Link href={`/buy?project=${id}`}>{say('what to buy first')}</Link>}
    </>
  )
}

/** Wishes for a month, with whether their threads are there. */
async function readWishes(schedule: OwnerSchedule, month: string, world: OccasionWorld, today: string): Promise<StartRow[]> {
  const answers = await getAnswers()
  const span = { fromOn: `${month}-01`, toOn: addDays(`${monthAfter(month, 1)}-01`, -1) }
  const wishes = await readThemedWishes(answers, [schedule], { span, today, occasions: world })
  const engine = answers.coverage([schedule.owner.id])
  return wishes.map(({ projectId, designId, title, theme, occasion, deadline, left, outlooks }): StartRow => {
    const work = { id: projectId, designId, threadListId: null, status: 'wanted' } as const
    return {
      ...{ key: projectId, projectId, title, isBegun: false, left, deadline },
      note: say('wanted, themed {theme}{rest}', {
        theme,
        rest:
          left === null
            ? say('; nobody knows how many stitches it has')
            : say(' · {left, plural, one {# stitch} other {# stitches}}', { left }),
      }),
      due: say('{on}, if it is to be ready for it', { on: formatDate(occasion.on) }),
      atPaces: outlooks.map((outlook) => ({
        ...{ kind: outlook.kind, outlook, latestStart: null, endsOn: null, beginsOn: null },
        daysLate: outlook.due && outlook.due.daysLate > 0 ? outlook.due.daysLate : null,
      })),
      cover: <Cover engine={engine} work={work} />,
    }
  })
}

/** What does not come out in time, at each pace. */
function Slips({ schedule }: { schedule: OwnerSchedule }) {
  const said = schedule.paces.map(({ kind }) => {
    const late = schedule.works.flatMap(({ id, title }) => {
      const at = schedule.atPaces.get(id)?.find((one) => one.kind === kind)
      return at?.daysLate && at.daysLate > 0 ? say('{title} is {late}', { title, late: lateWords(at.daysLate) }) : []
    })
    return { kind, words: listed(late) }
  })
  const slips = said.filter(({ words }) => words !== '')
  if (slips.length === 0) return null
  const isSame = slips.length === said.length && slips.every(({ words }) => words === slips[0]?.words)
  return (
    <Notice kind="caution" title={say('Not everything comes out in time')}>
      {(isSame ? slips.slice(0, 1) : slips).map(({ kind, words }) => (
        <p key={kind}>
          {isSame ? say('At every pace') : capital(paceWords[kind])}, {words}.
        </p>
      ))}
      <p>{say('The one due first comes first. No other order makes the latest of them less late.')}</p>
    </Notice>
  )
}

const capital = (words: string): string => `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`

/** What time is free of all that is due. */
function Room({ schedule, today }: { schedule: OwnerSchedule; today: string }) {
  const lines = schedule.paces.map(({ kind, schedule: { jobs, gaps } }) => {
    const first = jobs.flatMap(({ latestStart }) => latestStart ?? []).sort()[0]
    const free =
      first !== undefined && first > today
        ? say('nothing due needs to be begun before {first}', { first: formatDate(first) })
        : null
    const waits =
      gaps.length > 0 ? say('nothing that is due can be worked on {gaps}', { gaps: listed(gaps.map(spanWords)) }) : null
    return { kind, words: listed([free, waits].flatMap((words) => words ?? [])) }
  })
  const said = lines.filter(({ words }) => words !== '')
  if (said.length === 0) return null
  return (
    <ul className={s.plain}>
      {said.map(({ kind, words }: { kind: PaceKind; words: string }) => (
        <li key={kind}>
          {capital(paceWords[kind])}, {words}.
        </li>
      ))}
    </ul>
  )
}
