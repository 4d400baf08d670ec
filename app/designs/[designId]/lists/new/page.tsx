import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findDesign } from '#lib/db/chart/find-design'
import { LinkButton } from '#ui/button'
import { PageHead } from '#ui/page-head'
import { ListForm } from '../../../../_charts/list-form'

export const generateMetadata = (): Metadata => ({ title: say('Add a thread list') })

export default async function NewListPage({ params }: { params: Promise<{ designId: string }> }) {
  const detail = await findDesign((await params).designId)
  if (!detail) notFound()
  const { design, chart, lists } = detail
  return (
    <>
      <PageHead
        title={say('Add a thread list of {title}', { title: design.title })}
        crumbs={[
          { label: say('Charts'), href: '/charts' },
          { label: chart.title, href: `/charts/${chart.id}` },
          { label: design.title, href: `/designs/${design.id}` },
          { label: say('Add a thread list') },
        ]}
        byline={say('The key as the chart prints it: counts where it gives them, or skeins, or neither.')}
        actions={<LinkButton href={`/charts/read?design=${design.id}`}>{say('Read it from text, PDF or photo')}</LinkButton>}
      />
      <ListForm designId={design.id} list={null} isFirst={lists.length === 0} />
    </>
  )
}
