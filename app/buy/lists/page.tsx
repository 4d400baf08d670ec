import type { Metadata } from 'next'
import { type ListedList, listBuyLists } from '#lib/db/buying/queries'
import { newId } from '#lib/db/new-id'
import { OwnerField } from '#trade/owner-field'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { shopProgressWords } from '#words/buying'
import { dayOf } from '#words/date'
import { SendWaiting } from '../../_ticks/send-waiting'
import { BuyParts } from '../buy-parts'
import { beginListAction } from './actions'
import { listsPageSchema } from './schema'

export const metadata: Metadata = { title: 'Lists to shop by' }

const perPage = 50
/** More open lists than anybody shops by. */
const mostOpen = 200

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function ShopListsPage({ searchParams }: PageProps) {
  const [{ page }, { owners, ownerIds }] = await Promise.all([
    searchParams.then((params) => listsPageSchema.parse(params)),
    getViewer(),
  ])
  const [open, closed] = await Promise.all([
    listBuyLists({ ownerIds, isOpen: true }, { offset: 0, limit: mostOpen }),
    listBuyLists({ ownerIds, isOpen: false }, { offset: (page - 1) * perPage, limit: perPage }),
  ])
  const groups = [
    { key: 'open', title: 'Open', note: counted(open.total, 'list'), rows: open.lists },
    { key: 'closed', title: 'Over', note: counted(closed.total, 'list'), rows: closed.lists },
  ].filter(({ rows }) => rows.length > 0)
  const own = owners.filter(({ id }) => ownerIds.includes(id))
  return (
    <>
      <SendWaiting />
      <PageHead
        title="Lists to shop by"
        crumbs={[{ label: 'Buy', href: '/buy' }, { label: 'Lists to shop by' }]}
        byline="What is to be bought, as it was reckoned, on your phone: what you tick goes into stock where it lives. Two people can tick the same list."
        actions={
          <LinkButton href="/buy" kind="first">
            Make one for designs
          </LinkButton>
        }
      />
      <BuyParts current="/buy/lists" />
      {groups.length === 0 ? (
        <Empty title="No list yet" actions={<LinkButton href="/buy">Choose what for</LinkButton>}>
          Choose designs or projects on the first page of Buy and press “Take it to the shop”, or begin an empty list below.
        </Empty>
      ) : (
        <Ledger
          caption="Lists to shop by, open ones first"
          groups={groups}
          rowKey={(list) => list.id}
          rowHref={(list) => `/buy/lists/${list.id}`}
          columns={[
            { key: 'what', head: 'List', cell: ({ title }) => title, phone: 'lead' },
            { key: 'done', head: 'Bought', cell: doneCell, isNumeric: true, phone: 'side' },
            { key: 'begun', head: 'Made', cell: begunWords, phone: 'line' },
            { key: 'owner', head: 'For the stock of', cell: ({ ownerName }) => ownerName, phone: 'line' },
            { key: 'state', head: 'State', cell: stateWords, phone: 'line' },
          ]}
        />
      )}
      {closed.total > perPage && (
        <Pager
          page={page}
          pages={Math.ceil(closed.total / perPage)}
          hrefForPage={(other) => `/buy/lists?page=${other}`}
          shown={`${closed.lists.length} of ${counted(closed.total, 'list')} that are over`}
        />
      )}
      {own.length > 0 && (
        <div className="no-print">
          <Section title="Begin an empty list" note="Fill it by hand: threads by code, or plain words.">
            <Form
              label="Begin a list"
              action={beginListAction}
              submit="Begin it"
              submitKind="plain"
              hidden={{ listId: newId(), ...(own.length === 1 && { ownerId: own[0]?.id ?? '' }) }}
              isInline
            >
              <TextField name="title" label="What it is called" isRequired placeholder="Saturday" maxLength={200} />
              {own.length > 1 && <OwnerField label="For the stock of" owners={own} ownerIds={ownerIds} />}
            </Form>
          </Section>
        </div>
      )}
    </>
  )
}

const begunWords = ({ startedAt, startedBy }: ListedList) => `${dayOf(startedAt)}${startedBy ? ` by ${startedBy}` : ''}`
const doneCell = ({ progress }: ListedList) => shopProgressWords(progress)
const stateWords = ({ status, closedAt }: ListedList) =>
  [{ open: 'open', done: 'done', dropped: 'dropped' }[status], closedAt && dayOf(closedAt)].filter(Boolean).join(' ')
