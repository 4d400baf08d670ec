import type { Metadata } from 'next'
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
import { ThingName, thingWords } from '../_things/thing-name'
import { clueWords } from './clue-words'
import { missingPageSchema } from './schema'

export const metadata: Metadata = { title: 'Missing' }

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
        title={isOpen ? 'Missing' : 'Missing: settled'}
        crumbs={[{ label: 'Places', href: '/places' }, { label: 'Missing' }]}
        note={total > 0 && counted(total, 'question')}
        byline={
          isOpen
            ? 'What was looked for and was not there: out until it turns up, never free. Asked longest ago first.'
            : 'What turned up, and what was given up. The latest first.'
        }
        actions={
          isOpen ? (
            <LinkButton href="/missing?settled=1">Settled questions</LinkButton>
          ) : (
            <LinkButton href="/missing">Open questions</LinkButton>
          )
        }
      />
      <PrintLine>Missing of {ownerName}</PrintLine>
      {questions.length === 0 ? (
        <Empty title={isOpen ? 'Nothing is missing' : 'No question was settled yet'}>
          {isOpen
            ? 'When a thing is not where the record says, report it from its own page, from a pull list, or when a bag is unpacked. The question stands here until it turns up or is given up.'
            : 'Found and given-up things stand here, with who settled them.'}
        </Empty>
      ) : (
        <Ledger
          caption={isOpen ? 'Open questions, asked longest ago first' : 'Settled questions, the latest first'}
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
          shown={`${offset + 1} to ${offset + questions.length} of ${total}`}
        />
      )}
    </>
  )
}

const whatColumn = (settings: Settings): Column<MissingQuestion> => ({
  key: 'what',
  head: 'What',
  cell: ({ thing }) => <ThingName thing={thing} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />,
  phone: 'lead',
})

const lastSeenColumn: Column<MissingQuestion> = {
  key: 'seen',
  head: 'Last seen',
  cell: ({ lastSeen, thing }) =>
    lastSeen ? (
      <PlaceLabel
        label={lastSeen.label}
        href={`/places/${lastSeen.id}`}
        isAway
        livesIn={thing.home && thing.home.id !== lastSeen.id ? thing.home.label : undefined}
      />
    ) : (
      'not known'
    ),
  phone: 'labelled',
}

const forColumn: Column<MissingQuestion> = {
  key: 'for',
  head: 'For',
  cell: ({ project }) =>
    project && (
      <Link href={`/projects/${project.id}`} className="title">
        {project.title}
      </Link>
    ),
  phone: 'labelled',
}

const openColumns = (settings: Settings, clues: ReadonlyMap<string, Clues>): Column<MissingQuestion>[] => [
  whatColumn(settings),
  lastSeenColumn,
  forColumn,
  {
    key: 'since',
    head: 'Asked',
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
    head: 'Where it may be',
    cell: ({ id }) => {
      const places = clues.get(id)?.places.slice(0, placesShown) ?? []
      return places.length === 0 ? (
        <span className="quiet">nothing points anywhere</span>
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
    head: 'Settle',
    headIsHidden: true,
    cell: ({ id, thing }) => (
      <LinkButton href={`/missing/${id}`}>
        Found or given up<span className="vh">: {thingWords(thing)}</span>
      </LinkButton>
    ),
    isAtEnd: true,
    phone: 'wide',
    isOffPaper: true,
  },
]

const settledColumns = (settings: Settings): Column<MissingQuestion>[] => [
  whatColumn(settings),
  lastSeenColumn,
  forColumn,
  {
    key: 'settled',
    head: 'Settled',
    cell: ({ id, status, settledAt, settledBy, note }) => (
      <>
        <Link href={`/missing/${id}`}>{status}</Link>
        {settledAt && `, ${dayOf(settledAt)}`}
        {settledBy && `, by ${settledBy}`}
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
