import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findProject } from '#lib/db/project/queries'
import { findRemovedWork, listWork } from '#lib/db/work/queries'
import { calendarDay } from '#lib/quantity/day'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { counted } from '#words/amounts'
import { pageSchema } from '../../schema'
import { WorkLedger } from '../work-ledger'

export const generateMetadata = (): Metadata => ({ title: say('Log') })

const perPage = 50

type LogPageProps = {
  params: Promise<{ projectId: string }>
  searchParams: Promise<Record<string, string | string[] | undefined>>
}

/** All that was logged on a project. */
export default async function LogPage({ params, searchParams }: LogPageProps) {
  const { projectId } = await params
  const { page } = pageSchema.parse(await searchParams)
  const [project, { entries, total }, removed] = await Promise.all([
    findProject(projectId),
    listWork(projectId, { offset: (page - 1) * perPage, limit: perPage }),
    findRemovedWork(projectId),
  ])
  if (!project) notFound()
  const here = `/projects/${projectId}`
  return (
    <>
      <PageHead
        title={say('Log of {title}', { title: project.design.title })}
        note={total > 0 && counted(total, 'entry')}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: project.design.title, href: here },
          { label: say('Log') },
        ]}
      />
      {total === 0 && (
        <Empty
          title={say('Nothing is logged')}
          actions={<LinkButton href={`${here}#log`}>{say('Log what was done')}</LinkButton>}
        >
          {say(
            'What is logged on the project’s page stands here, day by day; your pace follows from it, and when a piece will be done.',
          )}
        </Empty>
      )}
      <WorkLedger entries={entries} removed={removed} today={calendarDay(new Date())} />
      {total > perPage && (
        <Pager
          page={page}
          pages={Math.ceil(total / perPage)}
          hrefForPage={(other) => `${here}/log?page=${other}`}
          shown={say('{entries} of {total, plural, one {# entry} other {# entries}}', { entries: entries.length, total })}
        />
      )}
    </>
  )
}
