import type { Metadata } from 'next'
import { numberText } from '#language/figures'
import { listPlaceOptions } from '#lib/db/place/queries'
import { familyChoices, listThreads, type ThreadListing, type ThreadOrder, type ThreadRow } from '#lib/db/thread/list-threads'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { putUpLabel } from '#lib/thread/put-ups'
import type { ThreadLine } from '#lib/thread/thread'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripSelect } from '#ui/form-strip'
import { type Column, type Group, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Ways } from '#ui/ways'
import { getViewer } from '#viewer/viewer'
import { counted, threadLength } from '#words/amounts'
import { lineTitle } from '#words/thread'
import { familyWord } from './colour-words'
import { hrefOf, readChoices, type ThreadChoices } from './filter'
import { NarrowThreads } from './narrow-threads'
import { PlaceCell } from './place-cell'
import { threadMarkColumn } from './thread-mark'
import s from './threads.module.css'
import { stateWords } from './words'

export const metadata: Metadata = { title: 'Threads' }

const perPage = 100

const orderWords: Record<ThreadOrder, string> = { drawer: 'maker, line and code', colour: 'colour family and hue' }

const familyColumn: Column<ThreadRow> = {
  key: 'family',
  head: 'Family',
  cell: (row) => row.family,
  width: '7rem',
  phone: 'side',
}

/** `isByColour`: rows of one family stand together, so they say their line and not their family. */
function columnsFor(unit: ThreadLengthUnit, isByColour: boolean): Column<ThreadRow>[] {
  const length = (row: ThreadRow, strandTenths: number) =>
    strandTenths === 0 ? '' : threadLength(strandTenths, row.line.strands, unit)
  return [
    threadMarkColumn,
    {
      key: 'code',
      head: 'Thread',
      cell: (row) => (
        <>
          <span className={isByColour ? undefined : 'vh'}>{lineTitle(row.line)} </span>
          <b>{row.code}</b>
          {row.name && ` ${row.name}`}
          {notesOf(row) && <span className={s.under}>{notesOf(row)}</span>}
        </>
      ),
      phone: 'lead',
    },
    ...(isByColour ? [] : [familyColumn]),
    {
      key: 'free',
      head: 'Free',
      cell: ({ line, stock, minimumPutUps }) => (
        <>
          {stock.freeStrandTenths > 0 ? threadLength(stock.freeStrandTenths, line.strands, unit) : 'none'}
          {stock.isSomeHeld && ' + some'}
          {stock.freePutUps > 0 && <span className={s.under}>{counted(stock.freePutUps, line.putUpWord)}</span>}
          {stock.states.includes('low') && <span className={`${s.under} ${s.do}`}>low, keep {minimumPutUps}</span>}
        </>
      ),
      isNumeric: true,
      phone: 'labelled',
    },
    {
      key: 'owned',
      head: 'Owned',
      cell: (row) => (
        <>
          {row.stock.ownedStrandTenths > 0 ? length(row, row.stock.ownedStrandTenths) : row.stock.isSomeOwned ? 'some' : ''}
          {row.stock.wholePutUps > 0 && <span className={s.under}>{counted(row.stock.wholePutUps, row.line.putUpWord)}</span>}
        </>
      ),
      isNumeric: true,
      phone: 'hide',
    },
    { key: 'out', head: 'Out', cell: (row) => length(row, row.stock.outStrandTenths), isNumeric: true, phone: 'hide' },
    {
      key: 'promised',
      head: 'Promised',
      cell: (row) => length(row, row.stock.promisedStrandTenths),
      isNumeric: true,
      phone: 'hide',
    },
    {
      key: 'place',
      head: 'Place',
      cell: (row) => <PlaceCell homes={row.homes} away={row.away} />,
      isAtEnd: true,
      width: '9rem',
      phone: 'side',
    },
  ]
}

const notesOf = (row: ThreadRow): string =>
  [row.lab && row.labCertainty === 'guess' && 'colour rough', row.isLeaving && 'no longer made'].filter(Boolean).join(', ')

const groupsByFamily = (listing: ThreadListing): Group<ThreadRow>[] =>
  familyChoices
    .map((family) => ({
      key: family,
      title: familyWord(family).replace(/^./u, (letter) => letter.toUpperCase()),
      note: counted(listing.counts.families[family], 'thread'),
      rows: listing.rows.filter((row) => (row.family ?? 'unknown') === family),
    }))
    .filter(({ rows }) => rows.length > 0)

function groupsByLine(listing: ThreadListing): Group<ThreadRow>[] {
  const groups = new Map<string, { line: ThreadLine; rows: ThreadRow[] }>()
  for (const row of listing.rows) {
    const group = groups.get(row.line.id)
    if (group) group.rows.push(row)
    else groups.set(row.line.id, { line: row.line, rows: [row] })
  }
  return [...groups.values()].map(({ line, rows }) => ({
    key: line.id,
    title: lineTitle(line),
    note: (
      <>
        {[line.fibre, putUpLabel(line.putUpStrandTenths, line.strands), line.dyeing === 'solid' ? null : line.dyeing]
          .filter(Boolean)
          .join(', ')}
        {' · '}
        <Link href={`/threads/lines/${line.id}`}>
          change<span className="vh"> the line {lineTitle(line)}</span>
        </Link>
      </>
    ),
    rows,
  }))
}

/** The choices as one sentence. */
function describeChoices(choices: ThreadChoices, listing: ThreadListing, placeLabel: string | undefined): string {
  const line = listing.lines.find(({ id }) => id === choices.line)
  const maker = listing.lines.find(({ makerId }) => makerId === choices.maker)
  const parts = [
    line ? lineTitle(line) : maker?.makerName,
    choices.family && familyWord(choices.family),
    placeLabel && `in ${placeLabel}`,
    choices.stock && stateWords[choices.stock],
    choices.text && `“${choices.text}”`,
  ].filter(Boolean)
  return parts.length === 0 ? 'All threads' : parts.join(', ')
}

type ThreadsPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function ThreadsPage({ searchParams }: ThreadsPageProps) {
  const { settings, ownerIds, ownerName } = await getViewer()
  const choices = readChoices(await searchParams)
  const [listing, places] = await Promise.all([
    listThreads(
      {
        makerId: choices.maker || null,
        lineId: choices.line || null,
        placeId: choices.place || null,
        text: choices.text,
        state: choices.stock || null,
        family: choices.family || null,
      },
      { ownerIds, offset: (choices.page - 1) * perPage, limit: perPage, order: choices.order },
    ),
    listPlaceOptions(),
  ])
  const { lines, total } = listing
  if (lines.length === 0) return <NoThreads />

  const placeLabel = places.find(({ id }) => id === choices.place)?.label
  const summary = describeChoices(choices, listing, placeLabel)
  const isNarrowed = hrefOf({ ...choices, order: 'drawer', page: 1 }) !== '/threads'
  const isByColour = choices.order === 'colour'
  const pages = Math.max(1, Math.ceil(total / perPage))
  const from = (choices.page - 1) * perPage
  return (
    <>
      <PageHead
        title="Threads"
        note={`${isNarrowed ? counted(total, 'thread') : `${counted(total, 'thread')} of ${counted(lines.length, 'line')}`}${isByColour ? `, by ${orderWords.colour}` : ''}`}
        byline={`Stock of ${ownerName || 'nobody yet'}. Lengths are of the thread as sold, all strands together.`}
        actions={
          <>
            <LinkButton kind="first" href="/threads/new">
              Add a thread
            </LinkButton>
            <LinkButton href="/threads/delivery">Enter a delivery</LinkButton>
          </>
        }
      />
      <Ways
        items={[
          { href: '/threads/which', label: 'Which thread is this?' },
          { href: hrefOf({ ...choices, page: 1 }).replace('/threads', '/threads/bulk'), label: 'Change many at once' },
          { href: '/threads/conversions', label: 'Conversion lists' },
          { href: '/threads/doubles', label: 'Doubles' },
        ]}
      />
      <PrintLine>
        {summary}, stock of {ownerName}
      </PrintLine>
      <FormStrip
        action="/threads"
        label="Narrow the threads"
        summary={`${summary}: ${numberText(total)}`}
        clear={isNarrowed ? { href: hrefOf({ order: choices.order }), label: 'All threads' } : undefined}
      >
        <NarrowThreads choices={choices} listing={listing} places={places} />
        <StripSelect
          name="order"
          label="Order"
          value={isByColour ? choices.order : ''}
          any={orderWords.drawer}
          options={[{ value: 'colour', label: orderWords.colour }]}
        />
      </FormStrip>
      {listing.rows.length === 0 ? (
        <Empty title="No thread is like that." actions={<LinkButton href="/threads">Show all threads</LinkButton>}>
          {total > 0 ? 'The list ends before this page.' : 'Take a choice off, or look for fewer letters of the name.'}
        </Empty>
      ) : (
        <Ledger
          caption={`Threads: ${summary}`}
          columns={columnsFor(settings.threadUnit, isByColour)}
          groups={isByColour ? groupsByFamily(listing) : groupsByLine(listing)}
          rowKey={(row) => row.id}
          rowHref={(row) => `/threads/${row.id}`}
          isTight
        />
      )}
      <Pager
        page={choices.page}
        pages={pages}
        hrefForPage={(page) => hrefOf({ ...choices, page })}
        shown={listing.rows.length === 0 ? '' : `${from + 1} to ${from + listing.rows.length} of ${numberText(total)}`}
      />
    </>
  )
}

function NoThreads() {
  return (
    <>
      <PageHead title="Threads" />
      <Empty
        title="No threads yet"
        actions={
          <>
            <LinkButton kind="first" href="/bring-in">
              Bring in my spreadsheet
            </LinkButton>
            <LinkButton href="/threads/new">Add a thread by hand</LinkButton>
          </>
        }
      >
        Every thread you hold stands here by maker, line and number, with what is free, what is out and its drawer.
      </Empty>
    </>
  )
}
