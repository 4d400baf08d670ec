import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
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

export const metadata: Metadata = { title: 'Log' }

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
        title={`Log of ${project.design.title}`}
        note={total > 0 && counted(total, 'entry')}
        crumbs={[{ label: 'Projects', href: '/projects' }, { label: project.design.title, href: here }, { label: 'Log' }]}
      />
      {total === 0 && (
        <Empty title="Nothing is logged" actions={<LinkButton href={`${here}#log`}>Log what was done</LinkButton>}>
          What is logged on the project’s page stands here, day by day; your pace follows from it, and when a piece will be done.
        </Empty>
      )}
      <WorkLedger entries={entries} removed={removed} today={calendarDay(new Date())} />
      {total > perPage && (
        <Pager
          page={page}
          pages={Math.ceil(total / perPage)}
          hrefForPage={(other) => `${here}/log?page=${other}`}
          shown={`${entries.length} of ${counted(total, 'entry')}`}
        />
      )}
    </>
  )
}
