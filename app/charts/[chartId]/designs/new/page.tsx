import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findChart, listChartOptions } from '#lib/db/chart/queries'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { addDesignAction } from '../../../../_charts/actions'
import { DesignFields } from '../../../../_charts/design-fields'

export const generateMetadata = (): Metadata => ({ title: say('Add a design') })

export default async function NewDesignPage({ params }: { params: Promise<{ chartId: string }> }) {
  const { chartId } = await params
  const [chart, options, { settings }] = await Promise.all([findChart(chartId), listChartOptions(), getViewer()])
  if (!chart || chart.isGone) notFound()
  return (
    <>
      <PageHead
        title={say('Add a design')}
        crumbs={[
          { label: say('Charts'), href: '/charts' },
          { label: chart.title, href: `/charts/${chart.id}` },
          { label: say('Add a design') },
        ]}
      />
      <Form
        action={addDesignAction}
        hidden={{ chartId: chart.id }}
        submit={say('Add it, then its thread list')}
        actions={<LinkButton href={`/charts/${chart.id}`}>{say('Leave it')}</LinkButton>}
        label={say('A design')}
      >
        <DesignFields options={options} unit={settings.lengthUnit} />
      </Form>
    </>
  )
}
