import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { type ReorderRow, readReorderCheck } from '#lib/db/reorder/reorder-check'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import type { Column } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { UnfoldButton } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { calendarDay } from '#words/date'
import s from '../buy.module.css'
import { BuyParts } from '../buy-parts'
import { OrderGroup } from '../order-group'
import { ReorderSum } from '../reorder-sum'
import { ThreadCell } from '../thread-cell'
import { putUpWords } from '../words'

export const metadata: Metadata = { title: 'Below the minimum' }

const columns: Column<ReorderRow>[] = [
  { key: 'thread', head: 'Thread', phone: 'lead', width: '17rem', cell: ({ thread }) => <ThreadCell thread={thread} /> },
  {
    key: 'class',
    head: 'Class',
    phone: 'labelled',
    cell: ({ abc }) =>
      abc === null ? <span className="quiet">not used</span> : `${abc.class}${abc.by === 'length' ? ' by length' : ''}`,
  },
  {
    key: 'free',
    head: 'Free',
    isNumeric: true,
    phone: 'labelled',
    cell: ({ check, isSomeHeld }) => (
      <>
        {check.freePutUps}
        {isSomeHeld && ' + some'}
        {check.onOrderPutUps > 0 && <span className={s.under}>+ {check.onOrderPutUps} on order</span>}
      </>
    ),
  },
  {
    key: 'rule',
    head: 'Buy at',
    phone: 'labelled',
    cell: ({ check, thread }) => (
      <>
        {check.rule.kind === 'point' ? `${check.thresholdPutUps} or fewer` : `fewer than ${check.thresholdPutUps}`}
        <Link className={`no-print ${s.under}`} href={`/threads/${thread.id}/reorder`}>
          change<span className="vh"> when to buy {thread.code}</span>
        </Link>
      </>
    ),
  },
  {
    key: 'buy',
    head: 'Buy',
    phone: 'line',
    cell: ({ check, thread }) => (
      <>
        <UnfoldButton>
          {check.isDue ? <span className={s.do}>{putUpWords(check.orderPutUps, thread)}</span> : 'enough is on order'}
        </UnfoldButton>
        {check.isDue && check.rule.packPutUps > 1 && (
          <span className={s.under}>
            {counted(check.packs, 'box')} of {check.rule.packPutUps}
          </span>
        )}
        {check.orderPutUps > 1 && thread.line.lotsMatter && <span className={s.under}>all of one lot</span>}
        {check.source === 'lots' && <span className={s.under}>by the usual two where lots matter; nobody set it</span>}
      </>
    ),
  },
]

export default async function MinimumPage() {
  const { owners, ownerIds, ownerName } = await getViewer()
  const rows = await readReorderCheck({ ownerIds, now: new Date() })
  const shown = rows.filter(({ check }) => check.isDue || check.onOrderPutUps > 0)
  const due = rows.filter(({ check }) => check.isDue)
  const groups = new Map<string, ReorderRow[]>()
  for (const row of shown) {
    const key = `${row.thread.line.makerId} ${row.ownerId}`
    groups.set(key, [...(groups.get(key) ?? []), row])
  }
  const today = calendarDay(new Date())
  return (
    <>
      <PageHead
        title="Below the minimum"
        crumbs={[{ label: 'Buy', href: '/buy' }, { label: 'Below the minimum' }]}
        note={rows.length > 0 && `${due.length} of ${counted(rows.length, 'thread')} with a rule`}
        byline={`Stock of ${ownerName || 'nobody yet'}. What is promised to kits and what is out is not free; what is on order counts as if it were here.`}
      />
      <BuyParts current="/buy/minimum" />
      <PrintLine>
        To reorder for {ownerName}, {formatDate(today)}
      </PrintLine>
      {rows.length === 0 ? (
        <Empty title="No thread has a minimum yet" actions={<LinkButton href="/threads">To the threads</LinkButton>}>
          Open a thread and say how many of it to keep, or by how much is sold in a week. What falls below it then stands here, by
          maker.
        </Empty>
      ) : shown.length === 0 ? (
        <Empty title="Nothing is below its minimum." actions={<LinkButton href="/threads">Set a minimum on a thread</LinkButton>}>
          Every thread with a rule has enough free or on order. What falls below stands here before the drawer is empty.
        </Empty>
      ) : (
        [...groups].map(([key, group]) => {
          const [first] = group
          if (!first) return null
          const { makerName } = first.thread.line
          return (
            <OrderGroup
              key={key}
              title={ownerIds.length > 1 ? `${makerName}, for ${first.ownerName}` : makerName}
              rows={group}
              columns={columns}
              itemOf={({ thread, check }) => ({
                thread,
                putUps: check.orderPutUps,
                putUpStrandTenths: thread.line.putUpStrandTenths,
                lot: null,
              })}
              under={({ check }) => <ReorderSum check={check} />}
              foot={`${counted(
                group.reduce((sum, { check }) => sum + check.orderPutUps, 0),
                'put-up',
              )} to buy`}
              supplier={makerName}
              owners={owners.filter(({ id }) => id === first.ownerId)}
              today={today}
            />
          )
        })
      )}
    </>
  )
}
