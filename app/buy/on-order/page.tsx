import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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

export const generateMetadata = (): Metadata => ({ title: say('On order') })

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
    head: say('Thread'),
    phone: 'lead',
    width: '17rem',
    cell: (row) => (
      <ThreadCell
        thread={row.thread}
        note={[
          row.lot && say('lot {lot}', { lot: row.lot }),
          row.putUpStrandTenths !== row.thread.line.putUpStrandTenths && say('of {length}', { length: length(row) }),
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
        title={say('On order')}
        crumbs={[{ label: say('Buy'), href: '/buy' }, { label: say('On order') }]}
        note={open.total > 0 && counted(open.total, 'order')}
        byline={say('What {ownerName} waits for. It is taken off what is to be bought, but is not free until it has come in.', {
          ownerName: ownerName || say('nobody yet'),
        })}
        actions={
          <>
            <LinkButton kind="first" href="/buy/on-order/new">
              {say('Put down an order')}
            </LinkButton>
            <LinkButton href="/threads/delivery">{say('Enter a delivery')}</LinkButton>
          </>
        }
      />
      <BuyParts current="/buy/on-order" />
      <PrintLine>{sayParts('On order for {ownerName}, {today}', { ownerName, today: formatDate(today) })}</PrintLine>
      {open.total === 0 ? (
        <Empty title={say('Nothing is on order.')} actions={<LinkButton href="/buy">{say('What is to buy')}</LinkButton>}>
          {say(
            'Put down what was ordered with one press on a list to buy, or one thread at a time here. It stands here until it has come.',
          )}
        </Empty>
      ) : (
        <>
          <Ledger
            caption={say('On order, by maker')}
            groups={[...groups].map(([makerName, rows]) => ({ key: makerName, title: makerName, rows }))}
            rowKey={(row) => row.id}
            columns={[
              threadColumn,
              {
                key: 'count',
                head: say('To come'),
                isNumeric: true,
                phone: 'labelled',
                cell: (row) => (
                  <>
                    {putUpWords(putUpsToCome(row), row.thread)}
                    {row.receivedPutUps > 0 && (
                      <span className={s.under}>
                        {sayParts('{receivedPutUps} of {putUps} have come', {
                          receivedPutUps: row.receivedPutUps,
                          putUps: row.putUps,
                        })}
                      </span>
                    )}
                  </>
                ),
              },
              {
                key: 'supplier',
                head: say('From'),
                phone: 'labelled',
                cell: ({ supplier, orderedOn, note }) => (
                  <>
                    {supplier}
                    <span className={s.under}>{say('ordered {orderedOn}', { orderedOn: formatDate(orderedOn) })}</span>
                    {note && <span className={s.under}>{note}</span>}
                  </>
                ),
              },
              {
                key: 'expected',
                head: say('Expected'),
                phone: 'labelled',
                cell: ({ expectedOn }) =>
                  expectedOn === null ? (
                    <span className="quiet">{say('not said')}</span>
                  ) : expectedOn < today ? (
                    <span className={s.do}>{say('late: {expectedOn}', { expectedOn: formatDate(expectedOn) })}</span>
                  ) : (
                    formatDate(expectedOn)
                  ),
              },
              {
                key: 'do',
                head: say('Do'),
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
            shown={say('{rows} of {total, plural, one {# order} other {# orders}}', {
              rows: open.rows.length,
              total: open.total,
            })}
          />
        </>
      )}
      {closed.rows.length > 0 && (
        <Section
          title={say('Closed lately')}
          note={
            closed.total > closedShown
              ? say('The last {closedShown} of {total}.', { closedShown, total: closed.total })
              : undefined
          }
        >
          <Ledger
            caption={say('Orders closed lately')}
            rows={closed.rows}
            rowKey={(row) => row.id}
            columns={[
              threadColumn,
              {
                key: 'came',
                head: say('Came'),
                phone: 'labelled',
                cell: (row) =>
                  row.receivedPutUps === 0
                    ? say('none: given up')
                    : say('{receivedPutUps} of {putUp}', {
                        receivedPutUps: row.receivedPutUps,
                        putUp: putUpWords(row.putUps, row.thread),
                      }),
              },
              { key: 'closed', head: say('Closed'), phone: 'labelled', cell: ({ closedAt }) => closedAt && dayOf(closedAt) },
              {
                key: 'again',
                head: say('Do'),
                headIsHidden: true,
                isAtEnd: true,
                isOffPaper: true,
                phone: 'wide',
                cell: (row) =>
                  row.receivedPutUps < row.putUps && (
                    <Form
                      label={say('Wait again for {nameOf}', { nameOf: nameOf(row.thread) })}
                      action={closeOrderAction}
                      submit={sayParts('Wait for it again{nameOf}', {
                        nameOf: <span className="vh">: {nameOf(row.thread)}</span>,
                      })}
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
        {sayParts('Take in{name}', { name: <span className="vh"> {name}</span> })}
      </LinkButton>
      <ConfirmDialog
        opener={sayParts('Give up<span> the rest of {name}</span>', {
          span: (words) => <span className="vh">{words}</span>,
          name,
        })}
        openerKind="quiet"
        title={say('No longer wait for {putUp} of {name}?', { putUp: putUpWords(putUpsToCome(row), row.thread), name })}
        confirm={say('No longer wait')}
        action={closeOrderAction}
        hidden={{ orderId: row.id, version: String(row.version), isClosed: 'yes' }}
      >
        <p>
          {say(
            'It is no longer counted as on its way. What has come stays. It can be waited for again from the foot of this page.',
          )}
        </p>
      </ConfirmDialog>
    </span>
  )
}
