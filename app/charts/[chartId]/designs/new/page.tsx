import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { findChart, listChartOptions } from '#lib/db/chart/queries'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { addDesignAction } from '../../../../_charts/actions'
import { DesignFields } from '../../../../_charts/design-fields'

export const metadata: Metadata = { title: 'Add a design' }

export default async function NewDesignPage({ params }: { params: Promise<{ chartId: string }> }) {
  const { chartId } = await params
  const [chart, options, { settings }] = await Promise.all([findChart(chartId), listChartOptions(), getViewer()])
  if (!chart || chart.isGone) notFound()
  return (
    <>
      <PageHead
        title="Add a design"
        crumbs={[
          { label: 'Charts', href: '/charts' },
          { label: chart.title, href: `/charts/${chart.id}` },
          { label: 'Add a design' },
        ]}
      />
      <Form
        action={addDesignAction}
        hidden={{ chartId: chart.id }}
        submit="Add it, then its thread list"
        actions={<LinkButton href={`/charts/${chart.id}`}>Leave it</LinkButton>}
        label="A design"
      >
        <DesignFields options={options} unit={settings.lengthUnit} />
      </Form>
    </>
  )
}
