import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readOccasionWorld } from '#lib/db/planning/days/occasions'
import { type ReadyBy, type ReadyDesign, type Room, readReadyBy } from '#lib/db/planning/days/read-ready'
import { readSchedules } from '#lib/db/planning/pace/read-schedule'
import { listOccasions, nextOccasion, type OccasionWorld } from '#lib/planning/days/occasions'
import { addDays } from '#lib/quantity/day'
import { TrayWord } from '#trade/tray'
import { Button } from '#ui/button'
import { Empty } from '#ui/empty'
import type { Option } from '#ui/field'
import { Options } from '#ui/field'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { paceWords } from '#words/calendar'
import { listStateWords } from '#words/cover'
import { calendarDay } from '#words/date'
import { occasionOptions } from '#words/occasion'
import { paceHeads } from '#words/work'
import s from '../calendar.module.css'
import { readyQuerySchema } from '../schema'

export const generateMetadata = (): Metadata => ({ title: say('What can be ready by a day') })

const mostShown = 40
const axisHeads = sayings({ season: 'Seasons', subject: 'Subjects', form: 'Forms' })

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

/** Designs held that can be stitched and finished by a day: a gift, a feast, a sale. */
export default async function ReadyPage({ searchParams }: PageProps) {
  const query = readyQuerySchema.parse(await searchParams)
  const [{ settings, owners, ownerIds }, answers] = await Promise.all([getViewer(), getAnswers()])
  const today = calendarDay(new Date())
  const ownerId = owners.find(({ id }) => id === query.owner)?.id ?? ownerIds[0] ?? ''
  const [world, [schedule]] = await Promise.all([
    readOccasionWorld([ownerId]),
    readSchedules([ownerId], { today, perWeek: query['per-week'] }),
  ])
  const dueOn = query.by ?? nextOccasion(query.occasion, addDays(today, 1), world)?.on ?? null
  const themes: Option[] = [...answers.world.themes]
    .map(([value, { axis, name }]) => ({ value, label: name, group: axisHeads[axis] }))
    .sort((a, b) => (a.group + a.label < b.group + b.label ? -1 : 1))
  const asked = { themeId: query.theme, words: query.q, finishingWeeks: query.finishing, today, othersWait: query.wait }
  const ready = schedule && dueOn !== null ? await readReadyBy(answers, schedule, { ...asked, dueOn }) : null
  return (
    <>
      <PageHead
        title={say('What can be ready by a day')}
        crumbs={[{ label: say('By when'), href: '/calendar' }, { label: say('What can be ready by a day') }]}
        byline={say('Designs you have the chart of, that can be stitched and finished in time beside what is due already.')}
      />
      <form className={s.say} action="/calendar/ready" aria-label={say('Ready by when, and what')}>
        <label>
          {say('Ready by')}
          <input type="date" name="by" min={today} defaultValue={query.by ?? ''} />
        </label>
        <OccasionChoice world={world} chosen={query.occasion} />
        <label>
          {say('Theme')}
          <select name="theme" defaultValue={query.theme}>
            <option value="">{say('any')}</option>
            <Options options={themes} />
          </select>
        </label>
        <label>
          {say('Words')}
          <input name="q" type="search" autoComplete="off" size={12} defaultValue={query.q} />
        </label>
        <label>
          {say('Finishing, weeks')}
          <input
            name="finishing"
            inputMode="numeric"
            autoComplete="off"
            size={4}
            defaultValue={query.finishing ?? ''}
            placeholder={String(settings.planning.finishingWeeks)}
          />
        </label>
        <label>
          {say('If I stitch so many a week')}
          <input name="per-week" inputMode="numeric" autoComplete="off" size={8} defaultValue={query['per-week'] ?? ''} />
        </label>
        {owners.length > 1 && (
          <label>
            {say('From the goods of')}
            <select name="owner" defaultValue={ownerId}>
              <Options options={owners.map(({ id, name }) => ({ value: id, label: name }))} />
            </select>
          </label>
        )}
        <span className={s.tick}>
          <input id="wait" type="checkbox" name="wait" value="1" defaultChecked={query.wait} />
          <label htmlFor="wait">{say('What is due already may wait')}</label>
        </span>
        <Button type="submit">{say('Show')}</Button>
      </form>
      {ready === null ? (
        <Empty title={say('No day yet')}>
          {say('Choose the day it is to be ready, or an occasion: a baby due in May, the guild’s fair.')}
        </Empty>
      ) : ready.rooms.length === 0 ? (
        <Empty title={say('No pace yet')}>
          {say('Nothing is logged that a pace could be reckoned from. Say how much you will stitch a week.')}
        </Empty>
      ) : (
        <Answer ready={ready} />
      )}
    </>
  )
}

const OccasionChoice = ({ world, chosen }: { world: OccasionWorld; chosen: string }) => (
  <label>
    {say('or for the next')}
    <select name="occasion" defaultValue={chosen}>
      <option value="">{say('no occasion')}</option>
      <Options options={occasionOptions(listOccasions(world))} />
    </select>
  </label>
)

function Answer({ ready }: { ready: ReadyBy }) {
  const { deadline, stitchedBy, rooms, designs, tooLarge, unknown, found } = ready
  const shown = designs.slice(0, mostShown)
  const more = [
    tooLarge > 0 && say('{tooLarge, plural, one {# design} other {# designs}} too large', { tooLarge }),
    unknown > 0 && say('{unknown} of unknown stitches', { unknown }),
    found > designs.length + tooLarge + unknown && say('some under way already or not looked at'),
  ]
  return (
    <>
      <Section
        title={say('Ready by {dueOn}', { dueOn: formatDate(deadline.dueOn) })}
        note={say('the last stitch by {stitchedBy}', { stitchedBy: formatDate(stitchedBy) })}
      >
        <ul className={s.plain}>
          {rooms.map((room) => (
            <li key={room.kind}>{roomWords(room)}</li>
          ))}
        </ul>
        <Unfold label={say('How this is reckoned')}>
          <Sums>
            {rooms.map((room) => (
              <RoomSum key={room.kind} room={room} ready={ready} />
            ))}
          </Sums>
        </Unfold>
      </Section>
      <Section
        title={say('Designs that fit')}
        note={[counted(designs.length, 'design'), ...more.flatMap((one) => one || [])].join('; ')}
      >
        {shown.length === 0 ? (
          <Empty title={say('None fits')}>{say('Take a later day, another theme, or let what is due already wait.')}</Empty>
        ) : (
          <Ledger
            caption={say('Designs that can be ready, the best covered first')}
            rows={shown}
            rowKey={({ record }) => record.designId}
            rowHref={({ record }) => `/designs/${record.designId}`}
            columns={[
              {
                key: 'what',
                head: say('Design'),
                cell: ({ record }) => (
                  <>
                    <span className="title">{record.title}</span>
                    <br />
                    <small className="quiet">{listed(record.designerNames)}</small>
                  </>
                ),
                phone: 'lead',
              },
              { key: 'stitches', head: say('Stitches'), cell: (row) => <Stitches row={row} />, isNumeric: true, phone: 'side' },
              { key: 'fits', head: say('In time'), cell: (row) => fitsWords(row, rooms), phone: 'line' },
              { key: 'threads', head: say('Threads'), cell: ({ best }) => <Threads best={best} />, phone: 'line' },
            ]}
            foot={
              designs.length > mostShown &&
              say('{mostShown} of {designs, plural, one {# design} other {# designs}}; narrow them by theme or words.', {
                mostShown,
                designs: designs.length,
              })
            }
          />
        )}
      </Section>
    </>
  )
}

const roomWords = ({ kind, weeks, stitches, spokenFor, free }: Room): string =>
  say(
    '{paceHeads}: {weeks, plural, one {# week} other {# weeks}}, {stitches, plural, one {# stitch} other {# stitches}}; {rest}{rest2} free.',
    {
      paceHeads: paceHeads[kind],
      weeks,
      stitches,
      rest: spokenFor > 0 ? say('what is due by then already needs {spokenFor, number}, so ', { spokenFor }) : '',
      rest2: free > 0 ? counted(free, 'stitch') : say('none'),
    },
  )

function RoomSum({ room, ready: { deadline, stitchedBy } }: { room: Room; ready: ReadyBy }) {
  const { kind, perWeek, weeks, stitches, spokenFor, free } = room
  return (
    <Sum
      title={paceHeads[kind]}
      rows={[
        { label: say('Due'), figure: formatDate(deadline.dueOn) },
        {
          label: say('Finishing'),
          figure: say('− {finishingWeeks, plural, one {# week} other {# weeks}}', { finishingWeeks: deadline.finishingWeeks }),
        },
        {
          label: say('In hand'),
          figure: say('− {bufferWeeks, plural, one {# week} other {# weeks}}', { bufferWeeks: deadline.bufferWeeks }),
        },
        { label: say('Last stitch by'), figure: formatDate(stitchedBy), kind: 'rule' },
        { label: say('Whole weeks from today'), how: say('days away left out'), figure: counted(weeks, 'week') },
        {
          label: say('Stitches in them'),
          how: `${weeks} × ${numberText(Math.round(perWeek))}`,
          figure: numberText(stitches),
        },
        { label: say('Due by then already'), figure: `− ${numberText(spokenFor)}` },
        { label: say('Free'), figure: counted(free, 'stitch'), kind: 'end' },
      ]}
    />
  )
}

const Stitches = ({ row: { total } }: { row: ReadyDesign }) => (
  <>
    {total.how === 'estimated' && say('about ')}
    {numberText(total.stitches)}
  </>
)

const fitsWords = ({ fitsAt }: ReadyDesign, rooms: readonly Room[]): string =>
  fitsAt.length === rooms.length
    ? say('at every pace')
    : say('only {fitsAt}', { fitsAt: listed(fitsAt.map((kind) => paceWords[kind])) })

function Threads({ best }: { best: ReadyDesign['best'] }) {
  if (!best) return <TrayWord state="unknown" word={say('No thread list')} />
  const { state, word, note } = listStateWords(best)
  return <TrayWord state={state} word={word} note={note} />
}
