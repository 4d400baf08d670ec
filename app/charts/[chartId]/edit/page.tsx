import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findChart, listChartOptions } from '#lib/db/chart/queries'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { editChartAction } from '../../../_charts/actions'
import { ChartFields } from '../../../_charts/chart-fields'

export const generateMetadata = (): Metadata => ({ title: say('Change a chart') })

export default async function EditChartPage({ params }: { params: Promise<{ chartId: string }> }) {
  const { chartId } = await params
  const [chart, options, { settings, owners }] = await Promise.all([findChart(chartId), listChartOptions(), getViewer()])
  if (!chart || chart.isGone) notFound()
  return (
    <>
      <PageHead
        title={say('Change {title}', { title: chart.title })}
        crumbs={[
          { label: say('Charts'), href: '/charts' },
          { label: chart.title, href: `/charts/${chart.id}` },
          { label: say('Change') },
        ]}
      />
      <Form
        action={editChartAction}
        hidden={{ id: chart.id, version: String(chart.version) }}
        submit={say('Save')}
        actions={<LinkButton href={`/charts/${chart.id}`}>{say('Leave it')}</LinkButton>}
        label={say('The chart')}
      >
        <ChartFields held={chart} owners={owners} designerNames={options.designers} currency={settings.currency} />
      </Form>
    </>
  )
}
