import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import type { Listed } from '#lib/db/buying/queries'
import type { OpenOrder, OwnerRule, ThreadPage } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { LinkButton } from '#ui/button'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { counted, threadLength } from '#words/amounts'
import { threadTitle } from '#words/thread'
import s from '../threads.module.css'

type OrderProps = { thread: ThreadPage; listed: readonly Listed[]; unit: ThreadLengthUnit; hasOwners: boolean }

/** What is still to come, and when to buy again. */
export function OrderSection({ thread, listed, unit, hasOwners }: OrderProps) {
  const { orders, rules, line, minimumPutUps, isLeaving } = thread
  const columns: Column<OpenOrder>[] = [
    {
      key: 'what',
      head: 'Ordered',
      cell: ({ putUps, putUpStrandTenths, lot, ownerName }) => (
        <>
          {counted(putUps, line.putUpWord)}
          {putUpStrandTenths !== line.putUpStrandTenths && ` of ${threadLength(putUpStrandTenths, line.strands, unit)}`}
          {lot && `, lot ${lot}`}
          {hasOwners && <span className={s.under}>for {ownerName}</span>}
        </>
      ),
      phone: 'lead',
    },
    {
      key: 'come',
      head: 'Come so far',
      cell: ({ receivedPutUps }) => (receivedPutUps > 0 ? counted(receivedPutUps, line.putUpWord) : 'none'),
      isNumeric: true,
      phone: 'labelled',
    },
    { key: 'from', head: 'From', cell: ({ supplier }) => supplier ?? '', phone: 'labelled' },
    {
      key: 'on',
      head: 'Ordered on',
      cell: ({ orderedOn }) => <span className="nb">{formatDate(orderedOn)}</span>,
      phone: 'labelled',
    },
    {
      key: 'due',
      head: 'Expected',
      cell: ({ expectedOn }) => (expectedOn ? <span className="nb">{formatDate(expectedOn)}</span> : 'not said'),
      isAtEnd: true,
      phone: 'side',
    },
  ]
  return (
    <Section
      title="On order and when to buy"
      id="orders"
      actions={<LinkButton href={`/threads/${thread.id}/reorder`}>When to buy again</LinkButton>}
    >
      {orders.length > 0 ? (
        <Ledger caption={`Orders of ${threadTitle(thread)}`} columns={columns} rows={orders} rowKey={({ id }) => id} isTight />
      ) : (
        <p className="quiet">Nothing of it is on order.</p>
      )}
      <ul className={`${s.list} ${s.gap}`}>
        {listed.map(({ orderId, listId, title, putUps, putUpStrandTenths }) => (
          <li key={orderId}>
            <span>
              {counted(putUps, line.putUpWord)}
              {putUpStrandTenths !== line.putUpStrandTenths && ` of ${threadLength(putUpStrandTenths, line.strands, unit)}`} to
              buy by the list <Link href={`/buy/lists/${listId}`}>{title}</Link>
            </span>
          </li>
        ))}
        {rules.map((rule) => (
          <li key={rule.ownerId}>
            <span>
              {ruleWords(rule, line.putUpWord)}
              {hasOwners && <small>{rule.ownerName}</small>}
            </span>
          </li>
        ))}
        {minimumPutUps !== null && (
          <li>
            <span>
              Low when fewer than {counted(minimumPutUps, `whole ${line.putUpWord}`)} are free
              {rules.length > 0 && <small>for owners without a rule of their own</small>}
            </span>
          </li>
        )}
        {rules.length === 0 && minimumPutUps === null && <li>No least number to keep is set.</li>}
        {isLeaving && (
          <li>
            <strong>No longer made, or soon not to be.</strong>
          </li>
        )}
      </ul>
    </Section>
  )
}

function ruleWords(rule: OwnerRule, putUpWord: string): string {
  if (rule.kind === 'minimum') return `Buy when fewer than ${counted(rule.minimumPutUps ?? 0, `whole ${putUpWord}`)} are free`
  const weekly = numberText((rule.demandHundredths ?? 0) / 100)
  return `Bought by its sales: ${weekly} a week${rule.leadWeeks === null ? '' : `, ${counted(rule.leadWeeks, 'week')} to come`}`
}
