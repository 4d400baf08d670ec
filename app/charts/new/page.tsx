import type { Metadata } from 'next'
import { say } from '#language/say'
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

export const generateMetadata = (): Metadata => ({ title: say('Add a chart') })

export default async function NewChartPage() {
  const [{ settings, owners, ownerIds }, places, options] = await Promise.all([
    getViewer(),
    listPlaceOptions(),
    listChartOptions(),
  ])
  return (
    <>
      <PageHead
        title={say('Add a chart')}
        crumbs={[{ label: say('Charts'), href: '/charts' }, { label: say('Add a chart') }]}
        byline={say('By hand; or have it read from the text of its key, its PDF or a photo.')}
        actions={<LinkButton href="/charts/read">{say('Read a key')}</LinkButton>}
      />
      {owners.length === 0 ? (
        <Empty title={say('Whose chart is it?')} actions={<LinkButton href="/settings">{say('Settings')}</LinkButton>}>
          {say('There is no owner yet. Add one in the settings first: your own stash, or the shop.')}
        </Empty>
      ) : (
        <Form
          action={addChartAction}
          submit={say('Add it, then its thread list')}
          actions={<LinkButton href="/charts">{say('Leave it')}</LinkButton>}
          label={say('A chart and its first design')}
        >
          <ChartFields
            owners={owners}
            ownerId={ownerIds[0]}
            designerNames={options.designers}
            currency={settings.currency}
            place={
              <TextField
                name="placeLabel"
                label={say('Where it lives')}
                hint={say('The label of a place; a new one is made')}
                suggestions={places.map(({ label }) => label)}
                maxLength={100}
                width="half"
              />
            }
          />
          <h2>{say('Its first design')}</h2>
          <DesignFields options={options} unit={settings.lengthUnit} isFirst />
          <HeldAlready />
        </Form>
      )}
    </>
  )
}
