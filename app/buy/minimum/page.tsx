import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type ReorderRow, readReorderCheck } from '#lib/db/reorder/reorder-check'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import type { Column } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { UnfoldButton } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import s from '../buy.module.css'
import { BuyParts } from '../buy-parts'
import { OrderGroup } from '../order-group'
import { ReorderSum } from '../reorder-sum'
import { ThreadCell } from '../thread-cell'
import { putUpWords } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('Below the minimum') })

const columns = (): Column<ReorderRow>[] => [
  { key: 'thread', head: say('Thread'), phone: 'lead', width: '17rem', cell: ({ thread }) => <ThreadCell thread={thread} /> },
  {
    key: 'class',
    head: say('Class'),
    phone: 'labelled',
    cell: ({ abc }) =>
      abc === null ? (
        <span className="quiet">{say('not used')}</span>
      ) : (
        `${abc.class}${abc.by === 'length' ? say(' by length') : ''}`
      ),
  },
  {
    key: 'free',
    head: say('Free'),
    isNumeric: true,
    phone: 'labelled',
    cell: ({ check, isSomeHeld }) => (
      <>
        {check.freePutUps}
        {isSomeHeld && say(' + some')}
        {check.onOrderPutUps > 0 && (
          <span className={s.under}>{sayParts('+ {onOrderPutUps} on order', { onOrderPutUps: check.onOrderPutUps })}</span>
        )}
      </>
    ),
  },
  {
    key: 'rule',
    head: say('Buy at'),
    phone: 'labelled',
    cell: ({ check, thread }) => (
      <>
        {check.rule.kind === 'point'
          ? say('{thresholdPutUps} or fewer', { thresholdPutUps: check.thresholdPutUps })
          : say('fewer than {thresholdPutUps}', { thresholdPutUps: check.thresholdPutUps })}
        <Link className={`no-print ${s.under}`} href={`/threads/${thread.id}/reorder`}>
          {sayParts('change<span> when to buy {code}</span>', {
            span: (words) => <span className="vh">{words}</span>,
            code: thread.code,
          })}
        </Link>
      </>
    ),
  },
  {
    key: 'buy',
    head: say('Buy'),
    phone: 'line',
    cell: ({ check, thread }) => (
      <>
        <UnfoldButton>
          {check.isDue ? (
            <span className={s.do}>{putUpWords(check.orderPutUps, thread)}</span>
          ) : (
            say('enough is on order: {positionPutUps} to go by', { positionPutUps: check.positionPutUps })
          )}
        </UnfoldButton>
        {check.isDue && check.rule.packPutUps > 1 && (
          <span className={s.under}>
            {sayParts('{packs, plural, one {# box} other {# boxes}} of {packPutUps}', {
              packs: check.packs,
              packPutUps: check.rule.packPutUps,
            })}
          </span>
        )}
        {check.orderPutUps > 1 && thread.line.lotsMatter && <span className={s.under}>{say('all of one lot')}</span>}
        {check.source === 'lots' && <span className={s.under}>{say('by the usual two where lots matter; nobody set it')}</span>}
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
        title={say('Below the minimum')}
        crumbs={[{ label: say('Buy'), href: '/buy' }, { label: say('Below the minimum') }]}
        note={
          rows.length > 0 &&
          say('{due} of {rows, plural, one {# thread} other {# threads}} with a rule', { due: due.length, rows: rows.length })
        }
        byline={say(
          'Stock of {ownerName}. What is promised to kits and what is out is not free; what is on order counts as if it were here.',
          { ownerName: ownerName || say('nobody yet') },
        )}
      />
      <BuyParts current="/buy/minimum" />
      <PrintLine>{sayParts('To reorder for {ownerName}, {today}', { ownerName, today: formatDate(today) })}</PrintLine>
      {rows.length === 0 ? (
        <Empty
          title={say('No thread has a minimum yet')}
          actions={<LinkButton href="/threads">{say('To the threads')}</LinkButton>}
        >
          {say(
            'Open a thread and say how many of it to keep, or by how much is sold in a week. What falls below it then stands here, by maker.',
          )}
        </Empty>
      ) : shown.length === 0 ? (
        <Empty
          title={say('Nothing is below its minimum.')}
          actions={<LinkButton href="/threads">{say('Set a minimum on a thread')}</LinkButton>}
        >
          {say('Every thread with a rule has enough free or on order. What falls below stands here before the drawer is empty.')}
        </Empty>
      ) : (
        [...groups].map(([key, group]) => {
          const [first] = group
          if (!first) return null
          const { makerName } = first.thread.line
          return (
            <OrderGroup
              key={key}
              title={
                ownerIds.length > 1 ? say('{makerName}, for {ownerName}', { makerName, ownerName: first.ownerName }) : makerName
              }
              rows={group}
              columns={columns()}
              itemOf={({ thread, check }) => ({
                thread,
                putUps: check.orderPutUps,
                putUpStrandTenths: thread.line.putUpStrandTenths,
                lot: null,
              })}
              under={({ check }) => <ReorderSum check={check} />}
              foot={say('{reduce, plural, one {# put-up} other {# put-ups}} to buy', {
                reduce: group.reduce((sum, { check }) => sum + check.orderPutUps, 0),
              })}
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
