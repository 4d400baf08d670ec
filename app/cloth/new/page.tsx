import type { Metadata } from 'next'
import { listPlaceOptions } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { addClothAction } from '../actions'
import { PieceFields } from '../piece-fields'

export const metadata: Metadata = { title: 'Add a piece of cloth' }

export default async function NewClothPage() {
  const [{ settings, owners, ownerIds }, places] = await Promise.all([getViewer(), listPlaceOptions()])
  return (
    <>
      <PageHead title="Add a piece of cloth" crumbs={[{ label: 'Cloth', href: '/cloth' }, { label: 'Add a piece' }]} />
      {owners.length === 0 ? (
        <Empty title="Whose cloth is it?" actions={<LinkButton href="/settings">Settings</LinkButton>}>
          There is no owner yet. Add one in the settings first: your own stash, or the shop.
        </Empty>
      ) : (
        <Form action={addClothAction} submit="Add the piece" actions={<LinkButton href="/cloth">Leave it</LinkButton>}>
          <SelectField
            name="ownerId"
            label="Whose it is"
            options={owners.map(({ id, name }) => ({ value: id, label: name }))}
            defaultValue={ownerIds[0]}
            width="half"
          />
          <TextField
            name="placeLabel"
            label="Where it lives"
            hint="The label of a place; a new one is made"
            suggestions={places.map(({ label }) => label)}
            maxLength={60}
            width="half"
          />
          <PieceFields unit={settings.lengthUnit} />
        </Form>
      )}
    </>
  )
}
