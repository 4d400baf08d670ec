import type { Metadata } from 'next'
import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { listPlaceOptions } from '#lib/db/place/queries'
import { listRecentPlaces } from '#lib/db/place/recent-places'
import { readRevision } from '#lib/db/read-revision'
import { familyChoices, listThreads, type ThreadListing, type ThreadOrder } from '#lib/db/thread/list-threads'
import type { ThreadLine } from '#lib/thread/thread'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripSelect } from '#ui/form-strip'
import { type Group, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Ways } from '#ui/ways'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { lineTitle } from '#words/thread'
import { DragGround } from '../_drag/drag-ground'
import { placesToDropOn } from '../_drag/dragged'
import { ChooseBar } from '../_listing/choose-bar'
import { ColumnsForm } from '../_listing/columns-form'
import { columnsOf } from '../_listing/columns-of'
import { filterText } from '../_listing/list-address'
import { ListTools } from '../_listing/list-tools'
import { rowsAddress } from '../_listing/rows-address'
import { SavedFilters } from '../_listing/saved-filters'
import { filterOf, hrefOf, readChoices, type ThreadChoices } from '../_listing/thread-filter'
import { familyWord } from './colour-words'
import { threadColumnsKnown, threadColumnWords } from './columns'
import { missingFromThreadFilter } from './missing-from-filter'
import { NarrowThreads } from './narrow-threads'
import { threadColumns, threadHref } from './thread-columns'
import { type ThreadListRow, withDesignCounts } from './thread-rows'
import { familyTitle, lineNote } from './thread-runs'
import { ThreadsList } from './threads-list'
import { stateWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Threads') })

const perPage = 100

const orderWords: Record<ThreadOrder, string> = sayings({ drawer: 'maker, line and code', colour: 'colour family and hue' })

type Listed = Pick<ThreadListing, 'counts'> & { rows: readonly ThreadListRow[] }

const groupsByFamily = (listing: Listed): Group<ThreadListRow>[] =>
  familyChoices
    .map((family) => ({
      key: family,
      title: familyTitle(family),
      note: counted(listing.counts.families[family], 'thread'),
      rows: listing.rows.filter((row) => (row.family ?? 'unknown') === family),
    }))
    .filter(({ rows }) => rows.length > 0)

function groupsByLine(listing: Listed): Group<ThreadListRow>[] {
  const groups = new Map<string, { line: ThreadLine; rows: ThreadListRow[] }>()
  for (const row of listing.rows) {
    const group = groups.get(row.line.id)
    if (group) group.rows.push(row)
    else groups.set(row.line.id, { line: row.line, rows: [row] })
  }
  return [...groups.values()].map(({ line, rows }) => ({
    key: line.id,
    title: lineTitle(line),
    note: sayParts('{lineNote} · <link>change<span> the line {lineTitle}</span></link>', {
      lineNote: lineNote(line),
      link: (words) => <Link href={`/threads/lines/${line.id}`}>{words}</Link>,
      span: (words) => <span className="vh">{words}</span>,
      lineTitle: lineTitle(line),
    }),
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
    placeLabel && say('in {place}', { place: placeLabel }),
    choices.stock && stateWords[choices.stock],
    choices.text && say('“{words}”', { words: choices.text }),
  ].filter(Boolean)
  return parts.length === 0 ? say('All threads') : parts.join(', ')
}

type ThreadsPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function ThreadsPage({ searchParams }: ThreadsPageProps) {
  const { settings, ownerIds, ownerName } = await getViewer()
  const choices = readChoices(await searchParams)
  const [revision, shown, listing, places, lately] = await Promise.all([
    readRevision(),
    columnsOf('threads', threadColumnsKnown),
    listThreads(filterOf(choices), {
      ownerIds,
      offset: (choices.page - 1) * perPage,
      limit: perPage,
      order: choices.order,
    }),
    listPlaceOptions(),
    listRecentPlaces(placesToDropOn),
  ])
  const { lines, total } = listing
  if (lines.length === 0) return <NoThreads />
  const listed = { counts: listing.counts, rows: await withDesignCounts(listing.rows) }

  const placeLabel = places.find(({ id }) => id === choices.place)?.label
  const summary = describeChoices(choices, listing, placeLabel)
  const isNarrowed = hrefOf({ ...choices, order: 'drawer', page: 1 }) !== '/threads'
  const isByColour = choices.order === 'colour'
  const pages = Math.max(1, Math.ceil(total / perPage))
  const from = (choices.page - 1) * perPage
  const filter = filterText(hrefOf(choices).split('?')[1] ?? '')
  const columns = { shown, unit: settings.threadUnit, isByColour, list: `threads of ${ownerIds.join()}?${filter}` }
  const caption = say('Threads: {summary}', { summary })
  return (
    <>
      <PageHead
        title={say('Threads')}
        note={`${isNarrowed ? counted(total, 'thread') : say('{total, plural, one {# thread} other {# threads}} of {lines, plural, one {# line} other {# lines}}', { total, lines: lines.length })}${isByColour ? say(', by {colour}', { colour: orderWords.colour }) : ''}`}
        byline={say('Stock of {ownerName}. Lengths are of the thread as sold, all strands together.', {
          ownerName: ownerName || say('nobody yet'),
        })}
        actions={
          <>
            <LinkButton kind="first" href="/threads/new">
              {say('Add a thread')}
            </LinkButton>
            <LinkButton href="/threads/delivery">{say('Enter a delivery')}</LinkButton>
          </>
        }
      />
      <Ways
        items={[
          { href: '/threads/which', label: say('Which thread is this?') },
          { href: hrefOf({ ...choices, page: 1 }).replace('/threads', '/threads/bulk'), label: say('Change many at once') },
          { href: '/threads/conversions', label: say('Conversion lists') },
          { href: '/threads/doubles', label: say('Doubles') },
        ]}
      />
      <PrintLine>{sayParts('{summary}, stock of {ownerName}', { summary, ownerName })}</PrintLine>
      <FormStrip
        action="/threads"
        label={say('Narrow the threads')}
        summary={`${summary}: ${numberText(total)}`}
        clear={isNarrowed ? { href: hrefOf({ order: choices.order }), label: say('All threads') } : undefined}
      >
        <NarrowThreads choices={choices} listing={listing} places={places} />
        <StripSelect
          name="order"
          label={say('Order')}
          value={isByColour ? choices.order : ''}
          any={orderWords.drawer}
          options={[{ value: 'colour', label: orderWords.colour }]}
        />
      </FormStrip>
      <SavedFilters room="threads" filter={filter} missingFrom={(text) => missingFromThreadFilter(text, listing, places)} />
      {listing.rows.length === 0 ? (
        <Empty
          title={say('No thread is like that.')}
          actions={<LinkButton href="/threads">{say('Show all threads')}</LinkButton>}
        >
          {total > 0 ? say('The list ends before this page.') : say('Take a choice off, or look for fewer letters of the name.')}
        </Empty>
      ) : (
        <>
          <ListTools>
            <ChooseBar room="threads" list={columns.list} filter={filter} total={total} noun="thread" isLong={pages > 1} />
            <ColumnsForm room="threads" known={threadColumnsKnown} words={threadColumnWords} shown={shown} />
          </ListTools>
          <ThreadsList
            isLong={pages > 1}
            props={{ columns, caption, revision, startAt: from, rowsAddress: rowsAddress('threads', filter, ownerIds) }}
          >
            <Ledger
              caption={caption}
              columns={threadColumns(columns)}
              groups={isByColour ? groupsByFamily(listed) : groupsByLine(listed)}
              rowKey={(row) => row.id}
              rowHref={threadHref}
              even="low"
              isTight
            />
            <Pager
              page={choices.page}
              pages={pages}
              hrefForPage={(page) => hrefOf({ ...choices, page })}
              shown={say('{from} to {from2} of {total, number}', { from: from + 1, from2: from + listing.rows.length, total })}
            />
          </ThreadsList>
          <DragGround places={lately} />
        </>
      )}
    </>
  )
}

function NoThreads() {
  return (
    <>
      <PageHead title={say('Threads')} />
      <Empty
        title={say('No threads yet')}
        actions={
          <>
            <LinkButton kind="first" href="/bring-in">
              {say('Bring in my spreadsheet')}
            </LinkButton>
            <LinkButton href="/threads/new">{say('Add a thread by hand')}</LinkButton>
          </>
        }
      >
        {say('Every thread you hold stands here by maker, line and number, with what is free, what is out and its drawer.')}
      </Empty>
    </>
  )
}
