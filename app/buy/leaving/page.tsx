import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type LeavingThread, readLeaving } from '#lib/db/reorder/leaving-threads'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { UnfoldButton } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, threadLength } from '#words/amounts'
import s from '../buy.module.css'
import { BuyParts } from '../buy-parts'
import { BuySum } from '../buy-sum'
import { pageSchema } from '../filter'
import { rowLinksColumn } from '../row-links'
import { ThreadCell } from '../thread-cell'
import { putUpWords } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('Leaving the range') })

const perPage = 25

type LeavingPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function LeavingPage({ searchParams }: LeavingPageProps) {
  const { page } = pageSchema.parse(await searchParams)
  const [{ settings, ownerIds, ownerName }, answers] = await Promise.all([getViewer(), getAnswers()])
  const { rows, total } = await readLeaving(answers, ownerIds, { offset: (page - 1) * perPage, limit: perPage })
  const unit = settings.threadUnit
  return (
    <>
      <PageHead
        title={say('Leaving the range')}
        crumbs={[{ label: say('Buy'), href: '/buy' }, { label: say('Leaving the range') }]}
        note={total > 0 && counted(total, 'thread')}
        byline={say(
          'Threads marked as no longer made, or soon not to be, with what needs them: projects wanted or planned first, then designs. From the stock of {ownerName}.',
          { ownerName: ownerName || say('nobody yet') },
        )}
      />
      <BuyParts current="/buy/leaving" />
      <PrintLine>{sayParts('Leaving the range: {ownerName}', { ownerName })}</PrintLine>
      {total === 0 ? (
        <Empty
          title={say('No thread is marked as leaving.')}
          actions={<LinkButton href="/threads">{say('Find the thread')}</LinkButton>}
        >
          {say(
            'Mark it on the thread’s own page when you hear that it is to go: what still needs it then stands here while it can be had.',
          )}
        </Empty>
      ) : (
        <>
          <Ledger
            caption={say('Threads leaving the range')}
            rows={rows}
            rowKey={({ thread }) => thread.id}
            under={(row) => <Arithmetic row={row} unit={unit} />}
            columns={[
              {
                key: 'thread',
                head: say('Thread'),
                phone: 'lead',
                width: '17rem',
                cell: ({ thread }) => <ThreadCell thread={thread} />,
              },
              {
                key: 'uses',
                head: say('Needed by'),
                phone: 'line',
                cell: ({ uses, designCount, thread }) =>
                  designCount === 0 && uses.length === 0 ? (
                    <span className="quiet">{say('no design')}</span>
                  ) : (
                    <>
                      {uses.map(({ wanted, needStrandTenths }) => (
                        <span key={wanted.want.key} className={s.under}>
                          <Link
                            className="title"
                            href={wanted.project ? `/projects/${wanted.project.id}` : `/designs/${wanted.designId}`}
                          >
                            {wanted.title}
                          </Link>
                          {wanted.project && <b>, {wanted.project.status}</b>}:{' '}
                          {threadLength(needStrandTenths, thread.line.strands, unit)}
                        </span>
                      ))}
                      {designCount > uses.length && (
                        <span className={s.under}>
                          {say('{designCount, plural, one {# design} other {# designs}} in all', { designCount })}
                        </span>
                      )}
                    </>
                  ),
              },
              {
                key: 'short',
                head: say('Short'),
                phone: 'line',
                cell: ({ forProjects, forAll, thread }) => (
                  <>
                    {forAll && (
                      <UnfoldButton>
                        {forProjects && forProjects.line.putUps > 0 ? (
                          <span className={s.do}>
                            {say('{putUp} for what is wanted', { putUp: putUpWords(forProjects.line.putUps, thread) })}
                          </span>
                        ) : forAll.line.putUps > 0 ? (
                          say('{putUp} for all of these', { putUp: putUpWords(forAll.line.putUps, thread) })
                        ) : (
                          say('enough')
                        )}
                      </UnfoldButton>
                    )}
                    {forProjects && forProjects.line.putUps > 0 && forAll && forAll.line.putUps > forProjects.line.putUps && (
                      <span className={s.under}>
                        {say('{putUp} for all of these', { putUp: putUpWords(forAll.line.putUps, thread) })}
                      </span>
                    )}
                  </>
                ),
              },
              rowLinksColumn(),
            ]}
          />
          <Pager
            page={page}
            pages={Math.max(1, Math.ceil(total / perPage))}
            hrefForPage={(other) => `/buy/leaving?page=${other}`}
            shown={say('{rows} of {total, plural, one {# thread} other {# threads}}', { rows: rows.length, total })}
          />
        </>
      )}
    </>
  )
}

function Arithmetic({ row, unit }: { row: LeavingThread; unit: 'm' | 'yd' }) {
  if (!row.forAll) return null
  const titles = new Map(row.uses.map(({ wanted }) => [wanted.want.key, wanted.title]))
  const shown = row.forProjects && row.forProjects.line.putUps > 0 ? row.forProjects : row.forAll
  return <BuySum row={shown} titleOf={(key) => titles.get(key) ?? ''} unit={unit} currency={null} />
}
