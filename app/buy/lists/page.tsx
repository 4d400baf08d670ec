import type { Metadata } from 'next'
import { say } from '#language/say'
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

export const generateMetadata = (): Metadata => ({ title: say('Lists to shop by') })

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
    { key: 'open', title: say('Open'), note: counted(open.total, 'list'), rows: open.lists },
    { key: 'closed', title: say('Over'), note: counted(closed.total, 'list'), rows: closed.lists },
  ].filter(({ rows }) => rows.length > 0)
  const own = owners.filter(({ id }) => ownerIds.includes(id))
  return (
    <>
      <SendWaiting />
      <PageHead
        title={say('Lists to shop by')}
        crumbs={[{ label: say('Buy'), href: '/buy' }, { label: say('Lists to shop by') }]}
        byline={say(
          'What is to be bought, as it was reckoned, on your phone: what you tick goes into stock where it lives. Two people can tick the same list.',
        )}
        actions={
          <LinkButton href="/buy" kind="first">
            {say('Make one for designs')}
          </LinkButton>
        }
      />
      <BuyParts current="/buy/lists" />
      {groups.length === 0 ? (
        <Empty title={say('No list yet')} actions={<LinkButton href="/buy">{say('Choose what for')}</LinkButton>}>
          {say(
            'Choose designs or projects on the first page of Buy and press “Take it to the shop”, or begin an empty list below.',
          )}
        </Empty>
      ) : (
        <Ledger
          caption={say('Lists to shop by, open ones first')}
          groups={groups}
          rowKey={(list) => list.id}
          rowHref={(list) => `/buy/lists/${list.id}`}
          columns={[
            { key: 'what', head: say('List'), cell: ({ title }) => title, phone: 'lead' },
            { key: 'done', head: say('Bought'), cell: doneCell, isNumeric: true, phone: 'side' },
            { key: 'begun', head: say('Made'), cell: begunWords, phone: 'line' },
            { key: 'owner', head: say('For the stock of'), cell: ({ ownerName }) => ownerName, phone: 'line' },
            { key: 'state', head: say('State'), cell: stateWords, phone: 'line' },
          ]}
        />
      )}
      {closed.total > perPage && (
        <Pager
          page={page}
          pages={Math.ceil(closed.total / perPage)}
          hrefForPage={(other) => `/buy/lists?page=${other}`}
          shown={say('{lists} of {total, plural, one {# list} other {# lists}} that are over', {
            lists: closed.lists.length,
            total: closed.total,
          })}
        />
      )}
      {own.length > 0 && (
        <div className="no-print">
          <Section title={say('Begin an empty list')} note={say('Fill it by hand: threads by code, or plain words.')}>
            <Form
              label={say('Begin a list')}
              action={beginListAction}
              submit={say('Begin it')}
              submitKind="plain"
              hidden={{ listId: newId(), ...(own.length === 1 && { ownerId: own[0]?.id ?? '' }) }}
              isInline
            >
              <TextField name="title" label={say('What it is called')} isRequired placeholder={say('Saturday')} maxLength={200} />
              {own.length > 1 && <OwnerField label={say('For the stock of')} owners={own} ownerIds={ownerIds} />}
            </Form>
          </Section>
        </div>
      )}
    </>
  )
}

const begunWords = ({ startedAt, startedBy }: ListedList) =>
  `${dayOf(startedAt)}${startedBy ? say(' by {startedBy}', { startedBy }) : ''}`
const doneCell = ({ progress }: ListedList) => shopProgressWords(progress)
const stateWords = ({ status, closedAt }: ListedList) =>
  [{ open: 'open', done: 'done', dropped: 'dropped' }[status], closedAt && dayOf(closedAt)].filter(Boolean).join(' ')
