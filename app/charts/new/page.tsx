import type { Metadata } from 'next'
import { listChartOptions } from '#lib/db/chart/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { addChartAction } from '../../_charts/actions'
import { ChartFields } from '../../_charts/chart-fields'
import { DesignFields } from '../../_charts/design-fields'
import { HeldAlready } from '../../_charts/held-already'

export const metadata: Metadata = { title: 'Add a chart' }

export default async function NewChartPage() {
  const [{ settings, owners, ownerIds }, places, options] = await Promise.all([
    getViewer(),
    listPlaceOptions(),
    listChartOptions(),
  ])
  return (
    <>
      <PageHead
        title="Add a chart"
        crumbs={[{ label: 'Charts', href: '/charts' }, { label: 'Add a chart' }]}
        byline="By hand; or have it read from the text of its key, its PDF or a photo."
        actions={<LinkButton href="/charts/read">Read a key</LinkButton>}
      />
      {owners.length === 0 ? (
        <Empty title="Whose chart is it?" actions={<LinkButton href="/settings">Settings</LinkButton>}>
          There is no owner yet. Add one in the settings first: your own stash, or the shop.
        </Empty>
      ) : (
        <Form
          action={addChartAction}
          submit="Add it, then its thread list"
          actions={<LinkButton href="/charts">Leave it</LinkButton>}
          label="A chart and its first design"
        >
          <ChartFields
            owners={owners}
            ownerId={ownerIds[0]}
            designerNames={options.designers}
            currency={settings.currency}
            place={
              <TextField
                name="placeLabel"
                label="Where it lives"
                hint="The label of a place; a new one is made"
                suggestions={places.map(({ label }) => label)}
                maxLength={100}
                width="half"
              />
            }
          />
          <h2>Its first design</h2>
          <DesignFields options={options} unit={settings.lengthUnit} isFirst />
          <HeldAlready />
        </Form>
      )}
    </>
  )
}
