import type { Metadata } from 'next'
import { listClosedWalks, listOpenWalks, type WalkListed } from '#lib/db/walk/queries'
import { WordsUsed } from '#trade/word'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import { progressWords, walkStatusWords, walkTitle } from '#words/walk'
import { SendWaiting } from '../_ticks/send-waiting'
import { walksPageSchema } from './schema'

export const metadata: Metadata = { title: 'Pulls and put-backs' }

const perPage = 50

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function WalksPage({ searchParams }: PageProps) {
  const { page } = walksPageSchema.parse(await searchParams)
  const [open, closed] = await Promise.all([listOpenWalks(), listClosedWalks({ offset: (page - 1) * perPage, limit: perPage })])
  const groups = [
    { key: 'open', title: 'Open', note: counted(open.length, 'walk'), rows: open },
    { key: 'closed', title: 'Over', note: counted(closed.total, 'walk'), rows: closed.walks },
  ].filter(({ rows }) => rows.length > 0)
  return (
    <>
      <SendWaiting />
      <PageHead
        title="Pulls and put-backs"
        crumbs={[{ label: 'Projects', href: '/projects' }, { label: 'Pulls and put-backs' }]}
        byline="One walk past the drawers with one list: what to take for the bags, or what goes back. Two people can tick the same list."
        actions={
          <LinkButton href="/walks/new" kind="first">
            Pull for projects
          </LinkButton>
        }
      />
      <WordsUsed of={['pull', 'put-back', 'walking-order']} />
      {groups.length === 0 ? (
        <Empty title="No walk yet">
          Choose the projects of a day and pull for all of them in one walk. A put-back list is made when a bag is unpacked.
        </Empty>
      ) : (
        <Ledger
          caption="Walks, open ones first, then the newest"
          groups={groups}
          rowKey={(walk) => walk.id}
          rowHref={(walk) => `/walks/${walk.id}`}
          columns={[
            { key: 'what', head: 'What', cell: walkTitle, phone: 'lead' },
            { key: 'done', head: 'Done', cell: progressCell, isNumeric: true, phone: 'side' },
            { key: 'begun', head: 'Begun', cell: begunWords, phone: 'line' },
            {
              key: 'state',
              head: 'State',
              cell: (walk) => [walkStatusWords[walk.status], walk.closedAt && dayOf(walk.closedAt)].filter(Boolean).join(' '),
              phone: 'line',
            },
          ]}
        />
      )}
      {closed.total > perPage && (
        <Pager
          page={page}
          pages={Math.ceil(closed.total / perPage)}
          hrefForPage={(other) => `/walks?page=${other}`}
          shown={`${closed.walks.length} of ${counted(closed.total, 'walk')} that are over`}
        />
      )}
    </>
  )
}

const begunWords = ({ startedAt, startedBy }: WalkListed) => `${dayOf(startedAt)}${startedBy ? ` by ${startedBy}` : ''}`

const progressCell = ({ progress }: WalkListed) => (
  <>
    {progressWords(progress)}
    {progress.notThere > 0 && (
      <>
        <br />
        <small className="do">{progress.notThere} not there</small>
      </>
    )}
  </>
)
