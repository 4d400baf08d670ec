import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
      head: say('Ordered'),
      cell: ({ putUps, putUpStrandTenths, lot, ownerName }) => (
        <>
          {counted(putUps, line.putUpWord)}
          {putUpStrandTenths !== line.putUpStrandTenths &&
            say(' of {threadLength}', { threadLength: threadLength(putUpStrandTenths, line.strands, unit) })}
          {lot && say(', lot {lot}', { lot })}
          {hasOwners && <span className={s.under}>{sayParts('for {ownerName}', { ownerName })}</span>}
        </>
      ),
      phone: 'lead',
    },
    {
      key: 'come',
      head: say('Come so far'),
      cell: ({ receivedPutUps }) => (receivedPutUps > 0 ? counted(receivedPutUps, line.putUpWord) : say('none')),
      isNumeric: true,
      phone: 'labelled',
    },
    { key: 'from', head: say('From'), cell: ({ supplier }) => supplier ?? '', phone: 'labelled' },
    {
      key: 'on',
      head: say('Ordered on'),
      cell: ({ orderedOn }) => <span className="nb">{formatDate(orderedOn)}</span>,
      phone: 'labelled',
    },
    {
      key: 'due',
      head: say('Expected'),
      cell: ({ expectedOn }) => (expectedOn ? <span className="nb">{formatDate(expectedOn)}</span> : say('not said')),
      isAtEnd: true,
      phone: 'side',
    },
  ]
  return (
    <Section
      title={say('On order and when to buy')}
      id="orders"
      actions={<LinkButton href={`/threads/${thread.id}/reorder`}>{say('When to buy again')}</LinkButton>}
    >
      {orders.length > 0 ? (
        <Ledger
          caption={say('Orders of {threadTitle}', { threadTitle: threadTitle(thread) })}
          columns={columns}
          rows={orders}
          rowKey={({ id }) => id}
          isTight
        />
      ) : (
        <p className="quiet">{say('Nothing of it is on order.')}</p>
      )}
      <ul className={`${s.list} ${s.gap}`}>
        {listed.map(({ orderId, listId, title, putUps, putUpStrandTenths }) => (
          <li key={orderId}>
            <span>
              {sayParts('{counted}{rest} to buy by the list {title}', {
                counted: counted(putUps, line.putUpWord),
                rest:
                  putUpStrandTenths !== line.putUpStrandTenths &&
                  say(' of {threadLength}', { threadLength: threadLength(putUpStrandTenths, line.strands, unit) }),
                title: <Link href={`/buy/lists/${listId}`}>{title}</Link>,
              })}
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
              {say('Low when fewer than {counted} are free', { counted: counted(minimumPutUps, `whole ${line.putUpWord}`) })}
              {rules.length > 0 && <small>{say('for owners without a rule of their own')}</small>}
            </span>
          </li>
        )}
        {rules.length === 0 && minimumPutUps === null && <li>{say('No least number to keep is set.')}</li>}
        {isLeaving && (
          <li>
            <strong>{say('No longer made, or soon not to be.')}</strong>
          </li>
        )}
      </ul>
    </Section>
  )
}

function ruleWords(rule: OwnerRule, putUpWord: string): string {
  if (rule.kind === 'minimum')
    return say('Buy when fewer than {counted} are free', { counted: counted(rule.minimumPutUps ?? 0, `whole ${putUpWord}`) })
  const weekly = numberText((rule.demandHundredths ?? 0) / 100)
  return say('Bought by its sales: {weekly} a week{rest}', {
    weekly,
    rest:
      rule.leadWeeks === null
        ? ''
        : say(', {leadWeeks, plural, one {# week} other {# weeks}} to come', { leadWeeks: rule.leadWeeks }),
  })
}
