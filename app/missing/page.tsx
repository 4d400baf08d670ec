import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { listMissing, type MissingQuestion } from '#lib/db/missing/queries'
import { type Clues, readClues } from '#lib/db/missing/read-clues'
import type { Settings } from '#lib/settings/settings'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import { missingStatusWords } from '#words/missing'
import { ThingName, thingWords } from '../_things/thing-name'
import { clueWords } from './clue-words'
import { missingPageSchema } from './schema'

export const generateMetadata = (): Metadata => ({ title: say('Missing') })

const perPage = 25
const placesShown = 3

export default async function MissingPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { page, settled } = missingPageSchema.parse(await searchParams)
  const { settings, ownerIds, ownerName } = await getViewer()
  const isOpen = settled === undefined
  const offset = (page - 1) * perPage
  const { questions, total } = await listMissing({ ownerIds, isOpen }, { offset, limit: perPage })
  const clues = isOpen ? await readClues(questions) : new Map<string, Clues>()
  return (
    <>
      <PageHead
        title={isOpen ? say('Missing') : say('Missing: settled')}
        crumbs={[{ label: say('Places'), href: '/places' }, { label: say('Missing') }]}
        note={total > 0 && counted(total, 'question')}
        byline={
          isOpen
            ? say('What was looked for and was not there: out until it turns up, never free. Asked longest ago first.')
            : say('What turned up, and what was given up. The latest first.')
        }
        actions={
          isOpen ? (
            <LinkButton href="/missing?settled=1">{say('Settled questions')}</LinkButton>
          ) : (
            <LinkButton href="/missing">{say('Open questions')}</LinkButton>
          )
        }
      />
      <PrintLine>{sayParts('Missing of {ownerName}', { ownerName })}</PrintLine>
      {questions.length === 0 ? (
        <Empty title={isOpen ? say('Nothing is missing') : say('No question was settled yet')}>
          {isOpen
            ? say(
                'When a thing is not where the record says, report it from its own page, from a pull list, or when a bag is unpacked. The question stands here until it turns up or is given up.',
              )
            : say('Found and given-up things stand here, with who settled them.')}
        </Empty>
      ) : (
        <Ledger
          caption={isOpen ? say('Open questions, asked longest ago first') : say('Settled questions, the latest first')}
          rows={questions}
          rowKey={({ id }) => id}
          columns={isOpen ? openColumns(settings, clues) : settledColumns(settings)}
        />
      )}
      {total > perPage && (
        <Pager
          page={page}
          pages={Math.ceil(total / perPage)}
          hrefForPage={(to) => `/missing?page=${to}${isOpen ? '' : '&settled=1'}`}
          shown={say('{offset} to {offset2} of {total}', { offset: offset + 1, offset2: offset + questions.length, total })}
        />
      )}
    </>
  )
}

const whatColumn = (settings: Settings): Column<MissingQuestion> => ({
  key: 'what',
  head: say('What'),
  cell: ({ thing }) => <ThingName thing={thing} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />,
  phone: 'lead',
})

const lastSeenColumn = (): Column<MissingQuestion> => ({
  key: 'seen',
  head: say('Last seen'),
  cell: ({ lastSeen, thing }) =>
    lastSeen ? (
      <PlaceLabel
        label={lastSeen.label}
        href={`/places/${lastSeen.id}`}
        isAway
        livesIn={thing.home && thing.home.id !== lastSeen.id ? thing.home.label : undefined}
      />
    ) : (
      say('not known')
    ),
  phone: 'labelled',
})

const forColumn = (): Column<MissingQuestion> => ({
  key: 'for',
  head: say('For'),
  cell: ({ project }) =>
    project && (
      <Link href={`/projects/${project.id}`} className="title">
        {project.title}
      </Link>
    ),
  phone: 'labelled',
})

const openColumns = (settings: Settings, clues: ReadonlyMap<string, Clues>): Column<MissingQuestion>[] => [
  whatColumn(settings),
  lastSeenColumn(),
  forColumn(),
  {
    key: 'since',
    head: say('Asked'),
    cell: ({ askedAt, askedBy, note }) => (
      <>
        <span className="nb">{dayOf(askedAt)}</span>
        {askedBy && `, ${askedBy}`}
        {note && (
          <>
            <br />
            <small className="quiet">{note}</small>
          </>
        )}
      </>
    ),
    phone: 'labelled',
  },
  {
    key: 'maybe',
    head: say('Where it may be'),
    cell: ({ id }) => {
      const places = clues.get(id)?.places.slice(0, placesShown) ?? []
      return places.length === 0 ? (
        <span className="quiet">{say('nothing points anywhere')}</span>
      ) : (
        <ul>
          {places.map(({ place, clues: why }) => (
            <li key={place.id}>
              <Link href={`/places/${place.id}`}>{place.label}</Link>: <small>{clueWords(why)}</small>
            </li>
          ))}
        </ul>
      )
    },
    phone: 'labelled',
  },
  {
    key: 'look',
    head: say('Settle'),
    headIsHidden: true,
    cell: ({ id, thing }) => (
      <LinkButton href={`/missing/${id}`}>
        {sayParts('Found or given up{thing}', { thing: <span className="vh">: {thingWords(thing)}</span> })}
      </LinkButton>
    ),
    isAtEnd: true,
    phone: 'wide',
    isOffPaper: true,
  },
]

const settledColumns = (settings: Settings): Column<MissingQuestion>[] => [
  whatColumn(settings),
  lastSeenColumn(),
  forColumn(),
  {
    key: 'settled',
    head: say('Settled'),
    cell: ({ id, status, settledAt, settledBy, note }) => (
      <>
        <Link href={`/missing/${id}`}>{missingStatusWords[status]}</Link>
        {settledAt && `, ${dayOf(settledAt)}`}
        {settledBy && say(', by {settledBy}', { settledBy })}
        {note && (
          <>
            <br />
            <small className="quiet">{note}</small>
          </>
        )}
      </>
    ),
    isAtEnd: true,
    phone: 'labelled',
  },
]
