import type { Metadata } from 'next'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type KitPairs, readKitPairs } from '#lib/db/planning/together/read-kit-pairs'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { getViewer } from '#viewer/viewer'
import { counted, everyOne } from '#words/amounts'
import { namesIn } from '#words/names'
import { pageSchema } from '../../schema'

export const metadata: Metadata = { title: 'Kit two at once' }

const perPage = 50

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

/** What has every colour in common, so that two are kitted at once. */
export default async function PairsPage({ searchParams }: PageProps) {
  const [{ ownerIds, ownerName }, answers, { page }] = await Promise.all([
    getViewer(),
    getAnswers(),
    searchParams.then((params) => pageSchema.parse(params)),
  ])
  const { pairs, looked, passedOver } = await readKitPairs(answers, ownerIds)
  const { names } = namesIn(answers)
  const shown = pairs.slice((page - 1) * perPage, page * perPage)
  return (
    <>
      <PageHead
        title="Kit two at once"
        note={pairs.length > 0 && counted(pairs.length, 'pair')}
        crumbs={[
          { label: 'Projects', href: '/projects' },
          { label: 'Which together', href: '/projects/together' },
          { label: 'Kit two at once' },
        ]}
        byline={`Of what ${ownerName || 'nobody yet'} wants or plans, two that share threads: a shared thread is pulled once for both, and put back once. First those of which one has every colour of the other.`}
      />
      {shown.length === 0 ? (
        <Empty title="No two share a thread" actions={<LinkButton href="/projects/together">Which together</LinkButton>}>
          {looked < 2
            ? 'It takes two projects that are wanted or planned, each with a thread list. They are then held against one another here.'
            : `The ${counted(looked, 'design')} wanted or planned have no thread in common.`}
        </Empty>
      ) : (
        <>
          <Ledger
            caption="Pairs of designs by the threads they share, those that one covers whole first"
            rows={shown}
            rowKey={({ projects }) => projects.map(({ projectId }) => projectId).join(' ')}
            columns={[
              {
                key: 'pair',
                head: 'These two',
                phone: 'lead',
                cell: ({ projects: [one, other] }) => (
                  <>
                    <Link href={`/projects/${one.projectId}`} className="title">
                      {names.design(one.designId)}
                    </Link>{' '}
                    with{' '}
                    <Link href={`/projects/${other.projectId}`} className="title">
                      {names.design(other.designId)}
                    </Link>
                  </>
                ),
              },
              { key: 'shared', head: 'In common', phone: 'line', cell: (pair) => sharedWords(pair, names.design) },
              {
                key: 'pulls',
                head: 'Pulls saved',
                isNumeric: true,
                phone: 'line',
                cell: ({ pulls, pullsSaved }) => `${pullsSaved} saved, ${pulls} left`,
              },
              {
                key: 'pull',
                head: 'Pull for both',
                headIsHidden: true,
                isAtEnd: true,
                isOffPaper: true,
                phone: 'side',
                cell: ({ projects }) => (
                  <Link href={`/walks/new?${new URLSearchParams(projects.map(({ projectId }) => ['project', projectId]))}`}>
                    Pull both
                    <span className="vh">: {projects.map(({ designId }) => names.design(designId)).join(', ')}</span>
                  </Link>
                ),
              },
            ]}
          />
          {pairs.length > perPage && (
            <Pager
              page={page}
              pages={Math.ceil(pairs.length / perPage)}
              hrefForPage={(other) => `/projects/together/pairs?page=${other}`}
              shown={`${shown.length} of ${counted(pairs.length, 'pair')}`}
            />
          )}
        </>
      )}
      {passedOver > 0 && <p className="quiet">{counted(passedOver, 'more project')} not looked at.</p>}
    </>
  )
}

function sharedWords(
  { isCovered, pullsSaved, projects }: KitPairs['pairs'][number],
  title: (designId: string) => string,
): string {
  const [one, other] = projects
  if (!isCovered) return `${counted(pullsSaved, 'thread')} of ${one.threads} and ${other.threads}`
  return one.threads === other.threads
    ? `every colour: ${everyOne(one.threads, 'thread')} of each`
    : `every colour of ${title(one.designId)}: ${everyOne(one.threads, 'thread')}`
}
