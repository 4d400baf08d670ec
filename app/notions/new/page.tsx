import type { Metadata } from 'next'
import { listPlaceOptions } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { addNotionAction } from '../actions'
import { NotionFields } from '../notion-fields'

export const metadata: Metadata = { title: 'Add a notion' }

export default async function NewNotionPage() {
  const [{ owners, ownerIds }, places] = await Promise.all([getViewer(), listPlaceOptions()])
  return (
    <>
      <PageHead title="Add a notion" crumbs={[{ label: 'Notions', href: '/notions' }, { label: 'Add a notion' }]} />
      {owners.length === 0 ? (
        <Empty title="Whose is it?" actions={<LinkButton href="/settings">Settings</LinkButton>}>
          There is no owner yet. Add one in the settings first: your own stash, or the shop.
        </Empty>
      ) : (
        <Form action={addNotionAction} submit="Add the notion" actions={<LinkButton href="/notions">Leave it</LinkButton>}>
          <NotionFields />
          <FieldRow>
            <NumberField name="count" label="How many" defaultValue={1} isWhole isRequired />
            <TextField
              name="placeLabel"
              label="Where it lives"
              hint="The label of a place; a new one is made"
              suggestions={places.map(({ label }) => label)}
              maxLength={60}
              width="half"
            />
          </FieldRow>
          <SelectField
            name="ownerId"
            label="Whose it is"
            options={owners.map(({ id, name }) => ({ value: id, label: name }))}
            defaultValue={ownerIds[0]}
            width="half"
          />
        </Form>
      )}
    </>
  )
}
