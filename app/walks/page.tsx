import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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

export const generateMetadata = (): Metadata => ({ title: say('Pulls and put-backs') })

const perPage = 50

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function WalksPage({ searchParams }: PageProps) {
  const { page } = walksPageSchema.parse(await searchParams)
  const [open, closed] = await Promise.all([listOpenWalks(), listClosedWalks({ offset: (page - 1) * perPage, limit: perPage })])
  const groups = [
    { key: 'open', title: say('Open'), note: counted(open.length, 'walk'), rows: open },
    { key: 'closed', title: say('Over'), note: counted(closed.total, 'walk'), rows: closed.walks },
  ].filter(({ rows }) => rows.length > 0)
  return (
    <>
      <SendWaiting />
      <PageHead
        title={say('Pulls and put-backs')}
        crumbs={[{ label: say('Projects'), href: '/projects' }, { label: say('Pulls and put-backs') }]}
        byline={say(
          'One walk past the drawers with one list: what to take for the bags, or what goes back. Two people can tick the same list.',
        )}
        actions={
          <LinkButton href="/walks/new" kind="first">
            {say('Pull for projects')}
          </LinkButton>
        }
      />
      <WordsUsed of={['pull', 'put-back', 'walking-order']} />
      {groups.length === 0 ? (
        <Empty title={say('No walk yet')}>
          {say(
            'Choose the projects of a day and pull for all of them in one walk. A put-back list is made when a bag is unpacked.',
          )}
        </Empty>
      ) : (
        <Ledger
          caption={say('Walks, open ones first, then the newest')}
          groups={groups}
          rowKey={(walk) => walk.id}
          rowHref={(walk) => `/walks/${walk.id}`}
          columns={[
            { key: 'what', head: say('What'), cell: walkTitle, phone: 'lead' },
            { key: 'done', head: say('Done'), cell: progressCell, isNumeric: true, phone: 'side' },
            { key: 'begun', head: say('Begun'), cell: begunWords, phone: 'line' },
            {
              key: 'state',
              head: say('State'),
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
          shown={say('{walks} of {total, plural, one {# walk} other {# walks}} that are over', {
            walks: closed.walks.length,
            total: closed.total,
          })}
        />
      )}
    </>
  )
}

const begunWords = ({ startedAt, startedBy }: WalkListed) =>
  `${dayOf(startedAt)}${startedBy ? say(' by {startedBy}', { startedBy }) : ''}`

const progressCell = ({ progress }: WalkListed) => (
  <>
    {progressWords(progress)}
    {progress.notThere > 0 && (
      <>
        <br />
        <small className="do">{sayParts('{notThere} not there', { notThere: progress.notThere })}</small>
      </>
    )}
  </>
)
