import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
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

export const metadata: Metadata = { title: 'What can be ready by a day' }

const mostShown = 40
const axisHeads = { season: 'Seasons', subject: 'Subjects', form: 'Forms' } as const

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
        title="What can be ready by a day"
        crumbs={[{ label: 'By when', href: '/calendar' }, { label: 'What can be ready by a day' }]}
        byline="Designs you have the chart of, that can be stitched and finished in time beside what is due already."
      />
      <form className={s.say} action="/calendar/ready" aria-label="Ready by when, and what">
        <label>
          Ready by
          <input type="date" name="by" min={today} defaultValue={query.by ?? ''} />
        </label>
        <OccasionChoice world={world} chosen={query.occasion} />
        <label>
          Theme
          <select name="theme" defaultValue={query.theme}>
            <option value="">any</option>
            <Options options={themes} />
          </select>
        </label>
        <label>
          Words
          <input name="q" type="search" autoComplete="off" size={12} defaultValue={query.q} />
        </label>
        <label>
          Finishing, weeks
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
          If I stitch so many a week
          <input name="per-week" inputMode="numeric" autoComplete="off" size={8} defaultValue={query['per-week'] ?? ''} />
        </label>
        {owners.length > 1 && (
          <label>
            From the goods of
            <select name="owner" defaultValue={ownerId}>
              <Options options={owners.map(({ id, name }) => ({ value: id, label: name }))} />
            </select>
          </label>
        )}
        <span className={s.tick}>
          <input id="wait" type="checkbox" name="wait" value="1" defaultChecked={query.wait} />
          <label htmlFor="wait">What is due already may wait</label>
        </span>
        <Button type="submit">Show</Button>
      </form>
      {ready === null ? (
        <Empty title="No day yet">Choose the day it is to be ready, or an occasion: a baby due in May, the guild’s fair.</Empty>
      ) : ready.rooms.length === 0 ? (
        <Empty title="No pace yet">
          Nothing is logged that a pace could be reckoned from. Say how much you will stitch a week.
        </Empty>
      ) : (
        <Answer ready={ready} />
      )}
    </>
  )
}

const OccasionChoice = ({ world, chosen }: { world: OccasionWorld; chosen: string }) => (
  <label>
    or for the next
    <select name="occasion" defaultValue={chosen}>
      <option value="">no occasion</option>
      <Options options={occasionOptions(listOccasions(world))} />
    </select>
  </label>
)

function Answer({ ready }: { ready: ReadyBy }) {
  const { deadline, stitchedBy, rooms, designs, tooLarge, unknown, found } = ready
  const shown = designs.slice(0, mostShown)
  const more = [
    tooLarge > 0 && `${counted(tooLarge, 'design')} too large`,
    unknown > 0 && `${unknown} of unknown stitches`,
    found > designs.length + tooLarge + unknown && 'some under way already or not looked at',
  ]
  return (
    <>
      <Section title={`Ready by ${formatDate(deadline.dueOn)}`} note={`the last stitch by ${formatDate(stitchedBy)}`}>
        <ul className={s.plain}>
          {rooms.map((room) => (
            <li key={room.kind}>{roomWords(room)}</li>
          ))}
        </ul>
        <Unfold label="How this is reckoned">
          <Sums>
            {rooms.map((room) => (
              <RoomSum key={room.kind} room={room} ready={ready} />
            ))}
          </Sums>
        </Unfold>
      </Section>
      <Section
        title="Designs that fit"
        note={[counted(designs.length, 'design'), ...more.flatMap((one) => one || [])].join('; ')}
      >
        {shown.length === 0 ? (
          <Empty title="None fits">Take a later day, another theme, or let what is due already wait.</Empty>
        ) : (
          <Ledger
            caption="Designs that can be ready, the best covered first"
            rows={shown}
            rowKey={({ record }) => record.designId}
            rowHref={({ record }) => `/designs/${record.designId}`}
            columns={[
              {
                key: 'what',
                head: 'Design',
                cell: ({ record }) => (
                  <>
                    <span className="title">{record.title}</span>
                    <br />
                    <small className="quiet">{listed(record.designerNames)}</small>
                  </>
                ),
                phone: 'lead',
              },
              { key: 'stitches', head: 'Stitches', cell: (row) => <Stitches row={row} />, isNumeric: true, phone: 'side' },
              { key: 'fits', head: 'In time', cell: (row) => fitsWords(row, rooms), phone: 'line' },
              { key: 'threads', head: 'Threads', cell: ({ best }) => <Threads best={best} />, phone: 'line' },
            ]}
            foot={
              designs.length > mostShown && `${mostShown} of ${counted(designs.length, 'design')}; narrow them by theme or words.`
            }
          />
        )}
      </Section>
    </>
  )
}

const roomWords = ({ kind, weeks, stitches, spokenFor, free }: Room): string =>
  `${paceHeads[kind]}: ${counted(weeks, 'week')}, ${counted(stitches, 'stitch')}; ${
    spokenFor > 0 ? `what is due by then already needs ${numberText(spokenFor)}, so ` : ''
  }${free > 0 ? counted(free, 'stitch') : 'none'} free.`

function RoomSum({ room, ready: { deadline, stitchedBy } }: { room: Room; ready: ReadyBy }) {
  const { kind, perWeek, weeks, stitches, spokenFor, free } = room
  return (
    <Sum
      title={paceHeads[kind]}
      rows={[
        { label: 'Due', figure: formatDate(deadline.dueOn) },
        { label: 'Finishing', figure: `− ${counted(deadline.finishingWeeks, 'week')}` },
        { label: 'In hand', figure: `− ${counted(deadline.bufferWeeks, 'week')}` },
        { label: 'Last stitch by', figure: formatDate(stitchedBy), kind: 'rule' },
        { label: 'Whole weeks from today', how: 'days away left out', figure: counted(weeks, 'week') },
        {
          label: 'Stitches in them',
          how: `${weeks} × ${numberText(Math.round(perWeek))}`,
          figure: numberText(stitches),
        },
        { label: 'Due by then already', figure: `− ${numberText(spokenFor)}` },
        { label: 'Free', figure: counted(free, 'stitch'), kind: 'end' },
      ]}
    />
  )
}

const Stitches = ({ row: { total } }: { row: ReadyDesign }) => (
  <>
    {total.how === 'estimated' && 'about '}
    {numberText(total.stitches)}
  </>
)

const fitsWords = ({ fitsAt }: ReadyDesign, rooms: readonly Room[]): string =>
  fitsAt.length === rooms.length ? 'at every pace' : `only ${listed(fitsAt.map((kind) => paceWords[kind]))}`

function Threads({ best }: { best: ReadyDesign['best'] }) {
  if (!best) return <TrayWord state="unknown" word="No thread list" />
  const { state, word, note } = listStateWords(best)
  return <TrayWord state={state} word={word} note={note} />
}
