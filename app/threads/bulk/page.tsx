import type { Metadata } from 'next'
import { say } from '#language/say'
import { colourFamilies } from '#lib/colour/family'
import { listBulkEdits } from '#lib/db/bulk-edit/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { listThreads, type ThreadRow } from '#lib/db/thread/list-threads'
import { Button, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip } from '#ui/form-strip'
import { type Column, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, threadLength } from '#words/amounts'
import { givenName } from '#words/given'
import { lineTitle, threadTitle } from '#words/thread'
import s from '../../_listing/bulk.module.css'
import { DoneLately } from '../../_listing/done-lately'
import { filterOf, readChoices } from '../../_listing/thread-filter'
import { NarrowThreads } from '../narrow-threads'
import { PlaceCell } from '../place-cell'
import { ThreadMark } from '../thread-mark'
import { ChangeFields } from './change-fields'
import { ChosenThreads } from './chosen'
import { type Query, readBulkChoices, searchOf } from './schema'

export const generateMetadata = (): Metadata => ({ title: say('Change many threads') })

const perPage = 200
const editsShown = 8

export default async function BulkPage({ searchParams }: { searchParams: Promise<Query> }) {
  const query = await searchParams
  const { chosen } = readBulkChoices(query)
  if (chosen !== '') return <ChosenThreads chosenId={chosen} />
  const choices = readChoices(query)
  const filter = filterOf(choices)
  const { settings, ownerIds, ownerName, owners } = await getViewer()
  const [listing, places, edits] = await Promise.all([
    listThreads(filter, { ownerIds, offset: (choices.page - 1) * perPage, limit: perPage, order: 'drawer' }),
    listPlaceOptions(),
    listBulkEdits(editsShown),
  ])
  const { total, rows } = listing
  const narrowing = {
    maker: choices.maker,
    line: choices.line,
    place: choices.place,
    family: choices.family,
    stock: choices.stock,
    text: choices.text,
  }
  const set = Object.fromEntries(Object.entries(narrowing).filter(([, value]) => value !== ''))
  const hrefForPage = (page: number) => `/threads/bulk?${searchOf({ ...set, page: String(page) })}`
  const columns: Column<ThreadRow>[] = [
    {
      key: 'tick',
      head: say('Chosen'),
      headIsHidden: true,
      cell: (row) => <input type="checkbox" name="t" value={row.id} className={s.tick} aria-label={threadTitle(row)} />,
      width: '2.5rem',
      phone: 'mark',
    },
    {
      key: 'thread',
      head: say('Thread'),
      cell: (row) => (
        <span className={s.thread}>
          <ThreadMark lab={row.lab} dyeing={row.line.dyeing} />
          <span>
            {lineTitle(row.line)} <b>{row.code}</b> {row.name}
          </span>
        </span>
      ),
      phone: 'lead',
    },
    {
      key: 'owned',
      head: say('Owned'),
      cell: ({ stock, line }) =>
        stock.wholePutUps > 0
          ? counted(stock.wholePutUps, line.putUpWord)
          : stock.ownedStrandTenths > 0
            ? threadLength(stock.ownedStrandTenths, line.strands, settings.threadUnit)
            : stock.isSomeOwned
              ? say('some')
              : say('none'),
      isNumeric: true,
      phone: 'labelled',
    },
    { key: 'keep', head: say('Keep'), cell: ({ minimumPutUps }) => minimumPutUps ?? '', isNumeric: true, phone: 'hide' },
    { key: 'family', head: say('Family'), cell: ({ family }) => (family ? givenName(family) : ''), phone: 'hide' },
    {
      key: 'place',
      head: say('Place'),
      cell: (row) => <PlaceCell homes={row.homes} away={row.away} />,
      isAtEnd: true,
      phone: 'side',
    },
  ]
  return (
    <>
      <PageHead
        title={say('Change many threads')}
        note={counted(total, 'thread')}
        crumbs={[{ label: say('Threads'), href: '/threads' }, { label: say('Change many') }]}
        byline={say(
          'Stock of {ownerName}. Narrow the list, tick, say what changes, look at it, then do it. It can be taken back.',
          { ownerName: ownerName || say('nobody yet') },
        )}
      />
      <FormStrip
        action="/threads/bulk"
        label={say('Narrow the threads')}
        summary={say('{total, plural, one {# thread} other {# threads}} found', { total })}
        clear={Object.keys(set).length > 0 ? { href: '/threads/bulk', label: say('All threads') } : undefined}
      >
        <NarrowThreads choices={choices} listing={listing} places={places} />
      </FormStrip>
      {rows.length === 0 ? (
        <Empty
          title={say('No thread is like that.')}
          actions={<LinkButton href="/threads/bulk">{say('Show all threads')}</LinkButton>}
        >
          {say('Take a choice off, or look for fewer letters of the name.')}
        </Empty>
      ) : (
        <form action="/threads/bulk/preview" className={s.form} aria-label={say('What changes')}>
          {Object.entries(set).map(([name, value]) => (
            <input key={name} type="hidden" name={name} value={value} />
          ))}
          <Section
            title={say('Which')}
            note={
              total > rows.length
                ? say('{rows, plural, one {# thread} other {# threads}} on this page.', { rows: rows.length })
                : undefined
            }
          >
            <fieldset className={s.scope}>
              <legend className="vh">{say('Which threads')}</legend>
              <label>
                <input type="radio" name="scope" value="ticked" defaultChecked /> {say('Those ticked on this page')}
              </label>
              <label>
                <input type="radio" name="scope" value="found" />{' '}
                {total === 1
                  ? say('The one found')
                  : say('All {total, plural, one {# thread} other {# threads}} found', { total })}
              </label>
            </fieldset>
            <Ledger caption={say('Threads to choose from')} columns={columns} rows={rows} rowKey={(row) => row.id} isTight />
            <Pager
              page={choices.page}
              pages={Math.max(1, Math.ceil(total / perPage))}
              hrefForPage={hrefForPage}
              shown={say('{rows, plural, one {# thread} other {# threads}} of {total, number}. Ticks count on this page only.', {
                rows: rows.length,
                total,
              })}
            />
          </Section>
          <Section title={say('What changes')} note={say('One thing at a time.')}>
            <ChangeFields
              places={places.map(({ label }) => label)}
              owners={owners.map(({ id, name }) => ({ value: id, label: name }))}
              families={colourFamilies}
            />
          </Section>
          <div className={s.acts}>
            <Button kind="first" type="submit">
              {say('Look at what would change')}
            </Button>
          </div>
        </form>
      )}
      <DoneLately edits={edits} hrefOf={(id) => `/threads/bulk/done/${id}`} />
    </>
  )
}
