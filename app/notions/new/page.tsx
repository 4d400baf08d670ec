import type { Metadata } from 'next'
import { say } from '#language/say'
import { listPlaceOptions } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { addNotionAction } from '../actions'
import { NotionFields } from '../notion-fields'

export const generateMetadata = (): Metadata => ({ title: say('Add a notion') })

export default async function NewNotionPage() {
  const [{ owners, ownerIds }, places] = await Promise.all([getViewer(), listPlaceOptions()])
  return (
    <>
      <PageHead
        title={say('Add a notion')}
        crumbs={[{ label: say('Notions'), href: '/notions' }, { label: say('Add a notion') }]}
      />
      {owners.length === 0 ? (
        <Empty title={say('Whose is it?')} actions={<LinkButton href="/settings">{say('Settings')}</LinkButton>}>
          {say('There is no owner yet. Add one in the settings first: your own stash, or the shop.')}
        </Empty>
      ) : (
        <Form
          action={addNotionAction}
          submit={say('Add the notion')}
          actions={<LinkButton href="/notions">{say('Leave it')}</LinkButton>}
        >
          <NotionFields />
          <FieldRow>
            <NumberField name="count" label={say('How many')} defaultValue={1} isWhole isRequired />
            <TextField
              name="placeLabel"
              label={say('Where it lives')}
              hint={say('The label of a place; a new one is made')}
              suggestions={places.map(({ label }) => label)}
              maxLength={60}
              width="half"
            />
          </FieldRow>
          <SelectField
            name="ownerId"
            label={say('Whose it is')}
            options={owners.map(({ id, name }) => ({ value: id, label: name }))}
            defaultValue={ownerIds[0]}
            width="half"
          />
        </Form>
      )}
    </>
  )
}
