import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { findBuyList, type ListDetail, type ShownLine } from '#lib/db/buying/queries'
import { newId } from '#lib/db/new-id'
import { listSuppliers } from '#lib/db/offer/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { NumberField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { expectedWords, shopProgressWords } from '#words/buying'
import { hexesOf } from '#words/colour'
import { dayOf } from '#words/date'
import { priceWords } from '#words/price'
import { threadName } from '#words/thread'
import s from '../../../_ticks/ticked-list.module.css'
import { addLineAction, changeListAction, dropListAction, endListAction, nameUnsortedAction, reopenListAction } from '../actions'
import { listQuerySchema } from '../schema'
import { amountWords, groupLines, lineName, linePrice, listText, noteWords } from './list-rows'
import type { DeskLine, DeskRow } from './rows'
import { ShareList } from './share-list'
import { ShopDesk } from './shop-desk'

type PageProps = { params: Promise<{ listId: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const found = await findBuyList((await params).listId)
  return { title: found ? found.list.title : 'List' }
}

/** So many labels are offered while one types. */
const offeredPlaces = 300

export default async function ShopListPage({ params, searchParams }: PageProps) {
  const [found, { by, prices }, { settings }, suppliers, places] = await Promise.all([
    params.then(({ listId }) => findBuyList(listId)),
    searchParams.then((query) => listQuerySchema.parse(query)),
    getViewer(),
    listSuppliers(),
    listPlaceOptions(),
  ])
  if (!found) notFound()
  const { list, lines, progress, sums, revision, unsorted } = found
  const { threadUnit: unit, currency } = settings
  const isOpen = list.status === 'open'
  const began = `Made ${dayOf(list.startedAt)}${list.startedBy ? ` by ${list.startedBy}` : ''}, for the stock of ${list.ownerName}`
  const ended = list.closedAt
    ? `${list.status === 'done' ? 'Done' : 'Dropped'} ${dayOf(list.closedAt)}${list.closedBy ? ` by ${list.closedBy}` : ''}`
    : null
  const edit = { listId: list.id }
  const address = (change: { by?: string; prices?: boolean }) => {
    const said = { by, prices, ...change }
    return `/buy/lists/${list.id}?${new URLSearchParams({ by: said.by, ...(said.prices && { prices: '1' }) })}`
  }
  const fileQuery = new URLSearchParams({ by, ...(prices && { prices: '1' }) })
  const hasNoHome = lines.some(({ thread, home, status }) => thread && home === null && status === 'open')
  return (
    <>
      <PageHead
        title={list.title}
        crumbs={[{ label: 'Buy', href: '/buy' }, { label: 'Lists to shop by', href: '/buy/lists' }, { label: list.title }]}
        byline={
          <>
            {[began, ended].filter(Boolean).join('. ')}.{' '}
            <span className={s.screen}>
              <For wantedFor={found.wantedFor} />
            </span>
            {list.note && <> {list.note}</>}
          </>
        }
      >
        {lines.length > 0 && prices && (
          <p>
            Expected: {expectedWords(sums, currency)}.
            {sums.paidMinor > 0 && ` Paid so far: ${priceWords(sums.paidMinor, currency)}.`}
          </p>
        )}
      </PageHead>
      <PrintLine>
        {list.title}, {dayOf(list.startedAt)}
      </PrintLine>
      <p className={`${s.screen} ${s.ways}`}>
        {(['supplier', 'maker'] as const).map((way) =>
          way === by ? (
            <b key={way}>{wayWords[way]}</b>
          ) : (
            <LinkButton key={way} kind="quiet" href={address({ by: way })}>
              {wayWords[way]}
            </LinkButton>
          ),
        )}
        <LinkButton kind="quiet" href={address({ prices: !prices })}>
          {prices ? 'Leave prices off' : 'With prices'}
        </LinkButton>
      </p>
      {!isOpen && (
        <Notice
          kind="done"
          title={`${list.status === 'done' ? 'This list is done' : 'This list was dropped'}: ${shopProgressWords(progress)}.`}
          actions={
            <Form
              action={reopenListAction}
              hidden={edit}
              submit="Shop by it again"
              submitKind="plain"
              isInline
              label="Shop by it again"
            />
          }
        >
          What was bought is in stock. What was not is no longer counted on.
        </Notice>
      )}
      {lines.length === 0 ? (
        <Empty title="Nothing on the list yet">Put threads and other things on it below.</Empty>
      ) : isOpen ? (
        <ShopDesk
          listId={list.id}
          ownerId={list.ownerId}
          version={list.version}
          revision={revision}
          currency={currency}
          stops={groupLines(lines, by).map(({ title, lines: some }) => ({
            ...{ key: title, title },
            rows: some.map((line) =>
              rowOf(line, { unit, currency: prices ? currency : null, unsorted: unsorted?.label ?? null }),
            ),
          }))}
          lines={lines.map(deskLineOf)}
        />
      ) : (
        <Ledger
          caption={`${list.title}: what was bought`}
          rows={lines}
          rowKey={({ id }) => id}
          columns={[
            { key: 'what', head: 'What', phone: 'lead', cell: lineName },
            { key: 'many', head: 'Wanted', phone: 'line', cell: (line) => amountWords(line, unit) },
            { key: 'state', head: 'Bought', phone: 'line', cell: boughtCell },
            {
              key: 'where',
              head: 'In',
              phone: 'side',
              isAtEnd: true,
              cell: ({ isCarried, home }) =>
                isCarried && home ? <PlaceLabel label={home.label} href={`/places/${home.id}`} /> : '',
            },
          ]}
        />
      )}
      <div className={s.screen}>
        {isOpen && (
          <Section
            title="More to buy"
            note="A thread by maker and code goes into stock when it is bought; anything else stands in words."
          >
            <Form
              label="Put more on the list"
              action={addLineAction}
              submit="Put it on"
              submitKind="plain"
              hidden={{ ...edit, lineId: newId() }}
              clearsWhenDone
              isInline
            >
              <TextField name="what" label="What" isRequired placeholder="Larkholm 0311, needles 26" maxLength={200} />
              <NumberField name="putUps" label="How many" isWhole defaultValue={1} />
              <TextField name="supplier" label="From" suggestions={suppliers} maxLength={200} />
              <TextField name="note" label="Note" placeholder="28 count, 18 × 27" maxLength={1_000} />
            </Form>
          </Section>
        )}
        {isOpen && (
          <Section
            title="Where new thread goes"
            note={
              unsorted
                ? `What has no home yet goes to ${unsorted.label}.`
                : hasNoHome
                  ? 'Some of it has no home yet. Say once where such thread goes, or say it at each tick.'
                  : 'All of it goes to where the same thread lives.'
            }
          >
            <Form label="Where new thread goes" action={nameUnsortedAction} submit="Keep it" submitKind="plain" isInline>
              <TextField
                name="label"
                label="Thread without a home goes to"
                hint="A label that is new becomes a place; empty for no place."
                defaultValue={unsorted?.label ?? ''}
                suggestions={places.slice(0, offeredPlaces).map(({ label }) => label)}
                maxLength={100}
              />
            </Form>
          </Section>
        )}
        {lines.length > 0 && (
          <Section
            title="Send or print it"
            note={prices ? 'With prices; nothing of whom it is for.' : 'Without prices, or whom it is for.'}
          >
            <ShareList title={list.title} text={listText(found, { by, unit, currency, withPrices: prices })} />
            <p className={s.ways}>
              <LinkButton kind="quiet" href={`/buy/lists/${list.id}/list.csv?${fileQuery}`} download>
                Download it (CSV)
              </LinkButton>
              <LinkButton kind="quiet" href={`/buy/lists/${list.id}/list.pdf?${fileQuery}`} download>
                as PDF
              </LinkButton>
            </p>
          </Section>
        )}
        <Section title="The list itself">
          <Unfold label="Call it something else">
            <Form
              label="Call it something else"
              action={changeListAction}
              submit="Keep the changes"
              submitKind="plain"
              hidden={{ ...edit, version: String(list.version) }}
            >
              <TextField name="title" label="What it is called" isRequired defaultValue={list.title} maxLength={200} />
              <TextField name="note" label="Note" defaultValue={list.note ?? ''} maxLength={1_000} />
            </Form>
          </Unfold>
          {isOpen && (
            <div className={s.ends}>
              <ConfirmDialog opener="End the list" title="End this list?" confirm="End it" action={endListAction} hidden={edit}>
                <p>What is bought stays in stock. What is open or not there is counted as still to be bought.</p>
              </ConfirmDialog>
              <ConfirmDialog
                opener="Drop it"
                openerKind="quiet"
                title="Drop this list?"
                confirm="Drop it"
                action={dropListAction}
                hidden={edit}
              >
                <p>
                  For a list that was made by mistake. What was bought by it stays in stock; ticks that come late are not taken.
                </p>
              </ConfirmDialog>
            </div>
          )}
        </Section>
      </div>
    </>
  )
}

const wayWords = { supplier: 'By shop', maker: 'By maker' } as const

const For = ({ wantedFor }: Pick<ListDetail, 'wantedFor'>) =>
  wantedFor.length > 0 && (
    <>
      For{' '}
      {wantedFor.map(({ designId, projectId, title, listName }, at) => (
        <span key={`${designId} ${projectId}`}>
          {at > 0 && ', '}
          <Link href={projectId ? `/projects/${projectId}` : `/designs/${designId}`}>{title}</Link>
          {listName && ` (${listName})`}
        </span>
      ))}
      .
    </>
  )

function boughtCell(line: ShownLine): string {
  if (line.status === 'open') return 'not bought'
  if (line.status === 'not there') return 'not there'
  const other = line.instead && threadName({ ...line.instead, makerName: line.instead.line.makerName })
  return [String(line.boughtPutUps ?? line.putUps), other && `of ${other} instead`, line.lot && `lot ${line.lot}`]
    .filter(Boolean)
    .join(', ')
}

function rowOf(
  line: ShownLine,
  { unit, currency, unsorted }: { unit: Parameters<typeof amountWords>[1]; currency: string | null; unsorted: string | null },
): DeskRow {
  const price = currency === null ? null : linePrice(line)
  return {
    ...{ id: line.id, name: lineName(line), putUps: line.putUps, notes: noteWords(line), matchLot: line.matchLot },
    amount: amountWords(line, unit),
    price: price === null || currency === null ? null : priceWords(price, currency),
    home: line.isCarried ? null : (line.home?.label ?? unsorted),
    thread: line.thread && {
      ...{ threadId: line.thread.id, maker: line.thread.line.makerName, code: line.thread.code, name: line.thread.name },
      ...{ hexes: hexesOf(line.thread.lab), dye: line.thread.line.dyeing === 'solid' ? 'solid' : 'overdyed' },
      lotsMatter: line.thread.line.lotsMatter,
    },
  }
}

const deskLineOf = (line: ShownLine): DeskLine => ({
  ...{ id: line.id, status: line.status, boughtPutUps: line.boughtPutUps, lot: line.lot, paidMinor: line.paidMinor },
  ...{ insteadThreadId: line.instead?.id ?? null, tickedAtMs: line.tickedAt?.getTime() ?? null, tickedBy: line.tickedBy },
  ...{ isInStock: line.isCarried, place: line.isCarried ? (line.home?.label ?? null) : null },
  insteadName: line.instead && threadName({ ...line.instead, makerName: line.instead.line.makerName }),
})
