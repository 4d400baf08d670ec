import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type KitPairs, readKitPairs } from '#lib/db/planning/together/read-kit-pairs'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { namesIn } from '#words/names'
import { pageSchema } from '../../schema'

export const generateMetadata = (): Metadata => ({ title: say('Kit two at once') })

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
        title={say('Kit two at once')}
        note={pairs.length > 0 && counted(pairs.length, 'pair')}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: say('Which together'), href: '/projects/together' },
          { label: say('Kit two at once') },
        ]}
        byline={say(
          'Of what {ownerName} wants or plans, two that share threads: a shared thread is pulled once for both, and put back once. First those of which one has every colour of the other.',
          { ownerName: ownerName || say('nobody yet') },
        )}
      />
      {shown.length === 0 ? (
        <Empty
          title={say('No two share a thread')}
          actions={<LinkButton href="/projects/together">{say('Which together')}</LinkButton>}
        >
          {looked < 2
            ? say(
                'It takes two projects that are wanted or planned, each with a thread list. They are then held against one another here.',
              )
            : say('The {looked, plural, one {# design} other {# designs}} wanted or planned have no thread in common.', {
                looked,
              })}
        </Empty>
      ) : (
        <>
          <Ledger
            caption={say('Pairs of designs by the threads they share, those that one covers whole first')}
            rows={shown}
            rowKey={({ projects }) => projects.map(({ projectId }) => projectId).join(' ')}
            columns={[
              {
                key: 'pair',
                head: say('These two'),
                phone: 'lead',
                cell: ({ projects: [one, other] }) =>
                  sayParts('{design} with {design2}', {
                    design: (
                      <Link href={`/projects/${one.projectId}`} className="title">
                        {names.design(one.designId)}
                      </Link>
                    ),
                    design2: (
                      <Link href={`/projects/${other.projectId}`} className="title">
                        {names.design(other.designId)}
                      </Link>
                    ),
                  }),
              },
              { key: 'shared', head: say('In common'), phone: 'line', cell: (pair) => sharedWords(pair, names.design) },
              {
                key: 'pulls',
                head: say('Pulls saved'),
                isNumeric: true,
                phone: 'line',
                cell: ({ pulls, pullsSaved }) => say('{pullsSaved} saved, {pulls} left', { pullsSaved, pulls }),
              },
              {
                key: 'pull',
                head: say('Pull for both'),
                headIsHidden: true,
                isAtEnd: true,
                isOffPaper: true,
                phone: 'side',
                cell: ({ projects }) => (
                  <Link href={`/walks/new?${new URLSearchParams(projects.map(({ projectId }) => ['project', projectId]))}`}>
                    {sayParts('Pull both{projects}', {
                      projects: <span className="vh">: {projects.map(({ designId }) => names.design(designId)).join(', ')}</span>,
                    })}
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
              shown={say('{shown} of {pairs, plural, one {# pair} other {# pairs}}', {
                shown: shown.length,
                pairs: pairs.length,
              })}
            />
          )}
        </>
      )}
      {passedOver > 0 && (
        <p className="quiet">
          {say('{passedOver, plural, one {# more project} other {# more projects}} not looked at.', { passedOver })}
        </p>
      )}
    </>
  )
}

function sharedWords(
  { isCovered, pullsSaved, projects }: KitPairs['pairs'][number],
  title: (designId: string) => string,
): string {
  const [one, other] = projects
  if (!isCovered)
    return say('{pullsSaved, plural, one {# thread} other {# threads}} of {threads} and {threads2}', {
      pullsSaved,
      threads: one.threads,
      threads2: other.threads,
    })
  return one.threads === other.threads
    ? say('every colour: {threads, plural, =1 {its one thread} =2 {both threads} other {all # threads}} of each', {
        threads: one.threads,
      })
    : say('every colour of {title}: {threads, plural, =1 {its one thread} =2 {both threads} other {all # threads}}', {
        title: title(one.designId),
        threads: one.threads,
      })
}
