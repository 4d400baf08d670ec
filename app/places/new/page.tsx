import type { Metadata } from 'next'
import { z } from 'zod'
import { listPlaceOptions } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { addPlaceAction } from '../actions'
import { PlaceFields } from '../place-fields'

export const metadata: Metadata = { title: 'Add a place' }

const searchSchema = z.object({ inside: z.string().max(64).catch('') })

export default async function NewPlacePage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { inside } = searchSchema.parse(await searchParams)
  const options = await listPlaceOptions()
  const parent = options.find(({ id }) => id === inside)
  return (
    <>
      <PageHead title="Add a place" crumbs={[{ label: 'Places', href: '/places' }, { label: 'Add a place' }]} />
      <Form
        action={addPlaceAction}
        submit="Add the place"
        actions={<LinkButton href={parent ? `/places/${parent.id}` : '/places'}>Leave it</LinkButton>}
      >
        <SelectField
          name="parentId"
          label="Stands in"
          options={options.map(({ id, pathText }) => ({ value: id, label: pathText }))}
          none="nothing: it stands by itself"
          defaultValue={parent?.id ?? ''}
        />
        <PlaceFields />
      </Form>
    </>
  )
}
