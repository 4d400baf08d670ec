import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findBuyList, type ListDetail, type ShownLine } from '#lib/db/buying/queries'
import { newId } from '#lib/db/new-id'
import { listSuppliers } from '#lib/db/offer/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { packsOf } from '#lib/planning/buying/shop-list'
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
import { Sum, Sums } from '#ui/sum'
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
  return { title: found ? found.list.title : say('List') }
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
  const began = say('Made {startedAt}{rest}, for the stock of {ownerName}', {
    startedAt: dayOf(list.startedAt),
    rest: list.startedBy ? say(' by {startedBy}', { startedBy: list.startedBy }) : '',
    ownerName: list.ownerName,
  })
  const ended = list.closedAt
    ? say('{isDone, select, yes {Done} other {Dropped}} {closedAt}{rest}', {
        isDone: list.status === 'done',
        closedAt: dayOf(list.closedAt),
        rest: list.closedBy ? say(' by {closedBy}', { closedBy: list.closedBy }) : '',
      })
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
        crumbs={[
          { label: say('Buy'), href: '/buy' },
          { label: say('Lists to shop by'), href: '/buy/lists' },
          { label: list.title },
        ]}
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
            {sayParts('Expected: {expected}.{rest}', {
              expected: expectedWords(sums, currency),
              rest: sums.paidMinor > 0 && say(' Paid so far: {price}.', { price: priceWords(sums.paidMinor, currency) }),
            })}
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
          {prices ? say('Leave prices off') : say('With prices')}
        </LinkButton>
      </p>
      {!isOpen && (
        <Notice
          kind="done"
          title={say('{isDone, select, yes {This list is done} other {This list was dropped}}: {shopProgress}.', {
            isDone: list.status === 'done',
            shopProgress: shopProgressWords(progress),
          })}
          actions={
            <Form
              action={reopenListAction}
              hidden={edit}
              submit={say('Shop by it again')}
              submitKind="plain"
              isInline
              label={say('Shop by it again')}
            />
          }
        >
          {say('What was bought is in stock. What was not is no longer counted on.')}
        </Notice>
      )}
      {lines.length === 0 ? (
        <Empty title={say('Nothing on the list yet')}>{say('Put threads and other things on it below.')}</Empty>
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
          caption={say('{title}: what was bought', { title: list.title })}
          rows={lines}
          rowKey={({ id }) => id}
          columns={[
            { key: 'what', head: say('What'), phone: 'lead', cell: lineName },
            { key: 'many', head: say('Wanted'), phone: 'line', cell: (line) => amountWords(line, unit) },
            { key: 'state', head: say('Bought'), phone: 'line', cell: boughtCell },
            {
              key: 'where',
              head: say('In'),
              phone: 'side',
              isAtEnd: true,
              cell: ({ isCarried, home }) =>
                isCarried && home ? <PlaceLabel label={home.label} href={`/places/${home.id}`} /> : '',
            },
          ]}
        />
      )}
      {prices && sums.expectedMinor > 0 && (
        <div className={`${s.screen} ${s.unfold}`}>
          <Unfold label={say('How what is expected comes about')}>
            <ExpectedSum lines={lines} sums={sums} currency={currency} unit={unit} />
          </Unfold>
        </div>
      )}
      <div className={s.screen}>
        {isOpen && (
          <Section
            title={say('More to buy')}
            note={say('A thread by maker and code goes into stock when it is bought; anything else stands in words.')}
          >
            <Form
              label={say('Put more on the list')}
              action={addLineAction}
              submit={say('Put it on')}
              submitKind="plain"
              hidden={{ ...edit, lineId: newId() }}
              clearsWhenDone
              isInline
            >
              <TextField
                name="what"
                label={say('What')}
                isRequired
                placeholder={say('Larkholm 0311, needles 26')}
                maxLength={200}
              />
              <NumberField name="putUps" label={say('How many')} isWhole defaultValue={1} />
              <TextField name="supplier" label={say('From')} suggestions={suppliers} maxLength={200} />
              <TextField name="note" label={say('Note')} placeholder={say('28 count, 18 × 27')} maxLength={1_000} />
            </Form>
          </Section>
        )}
        {isOpen && (
          <Section
            title={say('Where new thread goes')}
            note={
              unsorted
                ? say('What has no home yet goes to {label}.', { label: unsorted.label })
                : hasNoHome
                  ? say('Some of it has no home yet. Say once where such thread goes, or say it at each tick.')
                  : say('All of it goes to where the same thread lives.')
            }
          >
            <Form
              label={say('Where new thread goes')}
              action={nameUnsortedAction}
              submit={say('Keep it')}
              submitKind="plain"
              isInline
            >
              <TextField
                name="label"
                label={say('Thread without a home goes to')}
                hint={say('A label that is new becomes a place; empty for no place.')}
                defaultValue={unsorted?.label ?? ''}
                suggestions={places.slice(0, offeredPlaces).map(({ label }) => label)}
                maxLength={100}
              />
            </Form>
          </Section>
        )}
        {lines.length > 0 && (
          <Section
            title={say('Send or print it')}
            note={prices ? say('With prices; nothing of whom it is for.') : say('Without prices, or whom it is for.')}
          >
            <ShareList title={list.title} text={listText(found, { by, unit, currency, withPrices: prices })} />
            <p className={s.ways}>
              <LinkButton kind="quiet" href={`/buy/lists/${list.id}/list.csv?${fileQuery}`} download>
                {say('Download it (CSV)')}
              </LinkButton>
              <LinkButton kind="quiet" href={`/buy/lists/${list.id}/list.pdf?${fileQuery}`} download>
                {say('as PDF')}
              </LinkButton>
            </p>
          </Section>
        )}
        <Section title={say('The list itself')}>
          <Unfold label={say('Call it something else')}>
            <Form
              label={say('Call it something else')}
              action={changeListAction}
              submit={say('Keep the changes')}
              submitKind="plain"
              hidden={{ ...edit, version: String(list.version) }}
            >
              <TextField name="title" label={say('What it is called')} isRequired defaultValue={list.title} maxLength={200} />
              <TextField name="note" label={say('Note')} defaultValue={list.note ?? ''} maxLength={1_000} />
            </Form>
          </Unfold>
          {isOpen && (
            <div className={s.ends}>
              <ConfirmDialog
                opener={say('End the list')}
                title={say('End this list?')}
                confirm={say('End it')}
                action={endListAction}
                hidden={edit}
              >
                <p>{say('What is bought stays in stock. What is open or not there is counted as still to be bought.')}</p>
              </ConfirmDialog>
              <ConfirmDialog
                opener={say('Drop it')}
                openerKind="quiet"
                title={say('Drop this list?')}
                confirm={say('Drop it')}
                action={dropListAction}
                hidden={edit}
              >
                <p>
                  {say(
                    'For a list that was made by mistake. What was bought by it stays in stock; ticks that come late are not taken.',
                  )}
                </p>
              </ConfirmDialog>
            </div>
          )}
        </Section>
      </div>
    </>
  )
}

const wayWords = sayings({ supplier: 'By shop', maker: 'By maker' })

const For = ({ wantedFor }: Pick<ListDetail, 'wantedFor'>) =>
  wantedFor.length > 0 && (
    <>
      {say('For')}{' '}
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

type ExpectedProps = {
  lines: readonly ShownLine[]
  sums: ListDetail['sums']
  currency: string
  unit: Parameters<typeof amountWords>[1]
}

/** What the whole list costs by the prices on record, and what was paid of it. */
function ExpectedSum({ lines, sums, currency, unit }: ExpectedProps) {
  const price = (minor: number) => priceWords(minor, currency)
  const paid = lines.filter(({ status, paidMinor }) => (status === 'bought' || status === 'instead') && paidMinor !== null)
  return (
    <Sums>
      <Sum
        title={say('Expected')}
        rows={[
          ...lines.map((line) => {
            const expected = linePrice(line)
            return {
              label: lineName(line),
              how:
                line.priceMinor === null
                  ? amountWords(line, unit)
                  : `${amountWords(line, unit)}: ${packsOf(line)} × ${price(line.priceMinor)}`,
              figure: expected === null ? say('no price') : price(expected),
            }
          }),
          { label: say('Together'), figure: price(sums.expectedMinor), kind: 'end' },
        ]}
      />
      {sums.paidMinor > 0 && (
        <Sum
          title={say('Paid so far')}
          rows={[
            ...paid.map((line) => ({ label: lineName(line), figure: price(line.paidMinor ?? 0) })),
            { label: say('Together'), figure: price(sums.paidMinor), kind: 'end' },
          ]}
          note={
            sums.unpaid > 0
              ? say('Of {unpaid, plural, one {# line} other {# lines}} bought nobody said what was paid.', {
                  unpaid: sums.unpaid,
                })
              : undefined
          }
        />
      )}
    </Sums>
  )
}

function boughtCell(line: ShownLine): string {
  if (line.status === 'open') return say('not bought')
  if (line.status === 'not there') return say('not there')
  const other = line.instead && threadName({ ...line.instead, makerName: line.instead.line.makerName })
  return [
    String(line.boughtPutUps ?? line.putUps),
    other && say('of {other} instead', { other }),
    line.lot && say('lot {lot}', { lot: line.lot }),
  ]
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
