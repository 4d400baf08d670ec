import type { Metadata } from 'next'
import { z } from 'zod'
import { dayText } from '#language/figures'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type RunOutRow, readRunOuts } from '#lib/db/reorder/run-outs'
import type { MovementKind } from '#lib/stock/stock-change'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import s from '../buy.module.css'
import { BuyParts } from '../buy-parts'
import { rowLinksColumn } from '../row-links'
import { ThreadCell } from '../thread-cell'
import { putUpWords } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('Ran out') })

const monthSchema = z
  .string()
  .regex(/^[12]\d{3}-(0[1-9]|1[0-2])$/)
  .optional()
  .catch(undefined)

const monthText = (year: number, month: number) => {
  const first = new Date(year, month, 1)
  return `${first.getFullYear()}-${String(first.getMonth() + 1).padStart(2, '0')}`
}

/** What took the last of a thread. */
const lastWords: Partial<Record<MovementKind, string>> = sayings({
  use: 'used up',
  correct: 'corrected to none',
  transfer: 'passed on',
  undo: 'undone',
})

type RanOutPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function RanOutPage({ searchParams }: RanOutPageProps) {
  const { month: asked } = await searchParams
  const now = new Date()
  const month = monthSchema.parse(asked) ?? monthText(now.getFullYear(), now.getMonth())
  const [year, index] = [Number(month.slice(0, 4)), Number(month.slice(5)) - 1]
  const [since, before] = [new Date(year, index, 1), new Date(year, index + 1, 1)]
  const { ownerIds, ownerName } = await getViewer()
  const rows = await readRunOuts({ ownerIds, since, before })
  const monthName = dayText(since, { month: 'long', year: 'numeric' })
  return (
    <>
      <PageHead
        title={say('Ran out in {monthName}', { monthName })}
        crumbs={[{ label: say('Buy'), href: '/buy' }, { label: say('Ran out') }]}
        note={rows.length > 0 && counted(rows.length, 'thread')}
        byline={say(
          'Threads of which the last came away from the stock of {ownerName}, by the journal. What is out in a bag has not run out.',
          { ownerName: ownerName || say('nobody yet') },
        )}
        actions={
          <>
            <LinkButton href={`/buy/ran-out?month=${monthText(year, index - 1)}`} rel="prev">
              {say('Month before')}
            </LinkButton>
            {before <= now && (
              <LinkButton href={`/buy/ran-out?month=${monthText(year, index + 1)}`} rel="next">
                {say('Month after')}
              </LinkButton>
            )}
          </>
        }
      />
      <BuyParts current="/buy/ran-out" />
      <PrintLine>{sayParts('Ran out in {monthName}: {ownerName}', { monthName, ownerName })}</PrintLine>
      {rows.length === 0 ? (
        <Empty
          title={say('Nothing ran out.')}
          actions={<LinkButton href="/buy/minimum">{say('What is running low')}</LinkButton>}
        >
          {say(
            'A thread stands here once the last of it is used up, corrected away or passed on: so that it is bought before it is missed.',
          )}
        </Empty>
      ) : (
        <Ledger<RunOutRow>
          caption={say('Threads that ran out in {monthName}, the latest first', { monthName })}
          rows={rows}
          rowKey={({ thread }) => thread.id}
          columns={[
            { key: 'thread', head: say('Thread'), phone: 'lead', cell: ({ thread }) => <ThreadCell thread={thread} /> },
            { key: 'day', head: say('Day'), phone: 'labelled', cell: ({ runOut }) => dayOf(runOut.at) },
            { key: 'how', head: say('How'), phone: 'labelled', cell: ({ runOut }) => lastWords[runOut.kind] ?? say('came away') },
            {
              key: 'now',
              head: say('Now'),
              phone: 'line',
              cell: ({ runOut, onOrderPutUps, thread }) =>
                runOut.isHeldAgain ? (
                  say('some has come in since')
                ) : onOrderPutUps > 0 ? (
                  say('{putUp} on order', { putUp: putUpWords(onOrderPutUps, thread) })
                ) : (
                  <span className={s.do}>{say('none held, none on order')}</span>
                ),
            },
            rowLinksColumn(),
          ]}
        />
      )}
    </>
  )
}
