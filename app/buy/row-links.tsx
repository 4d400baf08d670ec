import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { BoughtThread } from '#lib/db/order/bought-threads'
import { LinkButton } from '#ui/button'
import type { Column } from '#ui/ledger'
import s from './buy.module.css'
import { nameOf } from './words'

/** What can be done about a thread that is wanting. */
const RowLinks = ({ thread }: { thread: BoughtThread }) => (
  <span className={`${s.links} ${s.atEnd}`}>
    <LinkButton href={`/buy/on-order/new?thread=${thread.id}`}>
      {sayParts('Order{nameOf}', { nameOf: <span className="vh"> {nameOf(thread)}</span> })}
    </LinkButton>
    <LinkButton kind="quiet" href={`/threads/${thread.id}/receive`}>
      {sayParts('Take some in<span> of {nameOf}</span>', {
        span: (words) => <span className="vh">{words}</span>,
        nameOf: nameOf(thread),
      })}
    </LinkButton>
  </span>
)

/** The last column of a list of threads that are wanting. */
export const rowLinksColumn = (): Column<{ thread: BoughtThread }> => ({
  key: 'do',
  head: say('Do'),
  headIsHidden: true,
  isAtEnd: true,
  isOffPaper: true,
  phone: 'wide',
  cell: ({ thread }) => <RowLinks thread={thread} />,
})
