import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { listOrders, type OrderRow, putUpsToCome } from '#lib/db/order/queries'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, threadLength } from '#words/amounts'
import { calendarDay, dayOf } from '#words/date'
import { closeOrderAction } from '../actions'
import s from '../buy.module.css'
import { BuyParts } from '../buy-parts'
import { pageSchema } from '../filter'
import { ThreadCell } from '../thread-cell'
import { nameOf, putUpWords } from '../words'

export const metadata: Metadata = { title: 'On order' }

const perPage = 100
const closedShown = 20

type OnOrderPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function OnOrderPage({ searchParams }: OnOrderPageProps) {
  const { page } = pageSchema.parse(await searchParams)
  const { settings, ownerIds, ownerName } = await getViewer()
  const [open, closed] = await Promise.all([
    listOrders({ ownerIds, isOpen: true }, { offset: (page - 1) * perPage, limit: perPage }),
    listOrders({ ownerIds, isOpen: false }, { offset: 0, limit: closedShown }),
  ])
  const today = calendarDay(new Date())
  const groups = new Map<string, OrderRow[]>()
  for (const row of open.rows) {
    const { makerName } = row.thread.line
    groups.set(makerName, [...(groups.get(makerName) ?? []), row])
  }
  const length = ({ thread, putUpStrandTenths }: OrderRow) =>
    threadLength(putUpStrandTenths, thread.line.strands, settings.threadUnit)
  const threadColumn: Column<OrderRow> = {
    key: 'thread',
    head: 'Thread',
    phone: 'lead',
    width: '17rem',
    cell: (row) => (
      <ThreadCell
        thread={row.thread}
        note={[
          row.lot && `lot ${row.lot}`,
          row.putUpStrandTenths !== row.thread.line.putUpStrandTenths && `of ${length(row)}`,
          ownerIds.length > 1 && row.ownerName,
        ]
          .filter(Boolean)
          .join(', ')}
      />
    ),
  }
  return (
    <>
      <PageHead
        title="On order"
        crumbs={[{ label: 'Buy', href: '/buy' }, { label: 'On order' }]}
        note={open.total > 0 && counted(open.total, 'order')}
        byline={`What ${ownerName || 'nobody yet'} waits for. It is taken off what is to be bought, but is not free until it has come in.`}
        actions={
          <>
            <LinkButton kind="first" href="/buy/on-order/new">
              Put down an order
            </LinkButton>
            <LinkButton href="/threads/delivery">Enter a delivery</LinkButton>
          </>
        }
      />
      <BuyParts current="/buy/on-order" />
      <PrintLine>
        On order for {ownerName}, {formatDate(today)}
      </PrintLine>
      {open.total === 0 ? (
        <Empty title="Nothing is on order." actions={<LinkButton href="/buy">What is to buy</LinkButton>}>
          Put down what was ordered with one press on a list to buy, or one thread at a time here. It stands here until it has
          come.
        </Empty>
      ) : (
        <>
          <Ledger
            caption="On order, by maker"
            groups={[...groups].map(([makerName, rows]) => ({ key: makerName, title: makerName, rows }))}
            rowKey={(row) => row.id}
            columns={[
              threadColumn,
              {
                key: 'count',
                head: 'To come',
                isNumeric: true,
                phone: 'labelled',
                cell: (row) => (
                  <>
                    {putUpWords(putUpsToCome(row), row.thread)}
                    {row.receivedPutUps > 0 && (
                      <span className={s.under}>
                        {row.receivedPutUps} of {row.putUps} have come
                      </span>
                    )}
                  </>
                ),
              },
              {
                key: 'supplier',
                head: 'From',
                phone: 'labelled',
                cell: ({ supplier, orderedOn, note }) => (
                  <>
                    {supplier}
                    <span className={s.under}>ordered {formatDate(orderedOn)}</span>
                    {note && <span className={s.under}>{note}</span>}
                  </>
                ),
              },
              {
                key: 'expected',
                head: 'Expected',
                phone: 'labelled',
                cell: ({ expectedOn }) =>
                  expectedOn === null ? (
                    <span className="quiet">not said</span>
                  ) : expectedOn < today ? (
                    <span className={s.do}>late: {formatDate(expectedOn)}</span>
                  ) : (
                    formatDate(expectedOn)
                  ),
              },
              {
                key: 'do',
                head: 'Do',
                headIsHidden: true,
                isAtEnd: true,
                isOffPaper: true,
                phone: 'wide',
                cell: (row) => <OrderActions row={row} />,
              },
            ]}
          />
          <Pager
            page={page}
            pages={Math.max(1, Math.ceil(open.total / perPage))}
            hrefForPage={(other) => `/buy/on-order?page=${other}`}
            shown={`${open.rows.length} of ${counted(open.total, 'order')}`}
          />
        </>
      )}
      {closed.rows.length > 0 && (
        <Section
          title="Closed lately"
          note={closed.total > closedShown ? `The last ${closedShown} of ${closed.total}.` : undefined}
        >
          <Ledger
            caption="Orders closed lately"
            rows={closed.rows}
            rowKey={(row) => row.id}
            columns={[
              threadColumn,
              {
                key: 'came',
                head: 'Came',
                phone: 'labelled',
                cell: (row) =>
                  row.receivedPutUps === 0 ? 'none: given up' : `${row.receivedPutUps} of ${putUpWords(row.putUps, row.thread)}`,
              },
              { key: 'closed', head: 'Closed', phone: 'labelled', cell: ({ closedAt }) => closedAt && dayOf(closedAt) },
              {
                key: 'again',
                head: 'Do',
                headIsHidden: true,
                isAtEnd: true,
                isOffPaper: true,
                phone: 'wide',
                cell: (row) =>
                  row.receivedPutUps < row.putUps && (
                    <Form
                      label={`Wait again for ${nameOf(row.thread)}`}
                      action={closeOrderAction}
                      submit={
                        <>
                          Wait for it again<span className="vh">: {nameOf(row.thread)}</span>
                        </>
                      }
                      submitKind="quiet"
                      hidden={{ orderId: row.id, version: String(row.version), isClosed: 'no' }}
                    />
                  ),
              },
            ]}
          />
        </Section>
      )}
    </>
  )
}

function OrderActions({ row }: { row: OrderRow }) {
  const name = nameOf(row.thread)
  return (
    <span className={`${s.links} ${s.atEnd}`}>
      <LinkButton href={`/buy/on-order/${row.id}`}>
        Take in<span className="vh"> {name}</span>
      </LinkButton>
      <ConfirmDialog
        opener={
          <>
            Give up<span className="vh"> the rest of {name}</span>
          </>
        }
        openerKind="quiet"
        title={`No longer wait for ${putUpWords(putUpsToCome(row), row.thread)} of ${name}?`}
        confirm="No longer wait"
        action={closeOrderAction}
        hidden={{ orderId: row.id, version: String(row.version), isClosed: 'yes' }}
      >
        <p>It is no longer counted as on its way. What has come stays. It can be waited for again from the foot of this page.</p>
      </ConfirmDialog>
    </span>
  )
}
