import type { Metadata } from 'next'
import { z } from 'zod'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { PlaceRecord } from '#lib/db/place/place-rows'
import { listPlaces, placeOptions } from '#lib/db/place/queries'
import { labelBetween } from '#lib/place/label-pattern'
import { nextLabels } from '#lib/place/own-patterns'
import { textKey } from '#lib/quantity/text-key'
import { LinkButton } from '#ui/button'
import { SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { addPlaceAction } from '../actions'
import { PlaceFields } from '../place-fields'

export const generateMetadata = (): Metadata => ({ title: say('Add a place') })

const searchSchema = z.object({
  inside: z.string().max(64).catch(''),
  /** A place it is to come right after, with a number between the two. */
  after: z.string().max(64).catch(''),
})

/** A label between a place and the next one beside it; null when they leave none, or there is none next. */
function labelAfter(before: PlaceRecord, places: readonly PlaceRecord[], taken: ReadonlySet<string>): string | null {
  const siblings = places.filter(({ parentId }) => parentId === before.parentId)
  const next = siblings[siblings.indexOf(before) + 1]
  const between = next ? labelBetween(before.label, next.label) : null
  return between !== null && !taken.has(textKey(between)) ? between : null
}

export default async function NewPlacePage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { inside, after } = searchSchema.parse(await searchParams)
  const [places, { settings }] = await Promise.all([listPlaces(), getViewer()])
  const options = placeOptions(places)
  const before = places.find(({ id }) => id === after)
  const parent = places.find(({ id }) => id === (before ? before.parentId : inside)) ?? null
  const taken = new Set(places.map(({ label }) => textKey(label)))
  const between = before && labelAfter(before, places, taken)
  const [next, ...others] = nextLabels(settings.labelPatterns, parent, (label) => taken.has(textKey(label)))
  const proposed = between ? { label: between, kind: before.kind } : next
  return (
    <>
      <PageHead title={say('Add a place')} crumbs={[{ label: say('Places'), href: '/places' }, { label: say('Add a place') }]} />
      <Form
        action={addPlaceAction}
        submit={say('Add the place')}
        actions={<LinkButton href={parent ? `/places/${parent.id}` : '/places'}>{say('Leave it')}</LinkButton>}
      >
        <SelectField
          name="parentId"
          label={say('Stands in')}
          options={options.map(({ id, pathText }) => ({ value: id, label: pathText }))}
          none={say('nothing: it stands by itself')}
          defaultValue={parent?.id ?? ''}
        />
        {before && !between && (
          <p className="quiet">
            {sayParts(
              'Between {label} and the next there is no number left. Labels with gaps, 10, 20, 30, leave room for more.',
              { label: before.label },
            )}
          </p>
        )}
        <PlaceFields proposed={proposed} />
        {others.length > 0 && (
          <p className="quiet">
            {say('Other patterns kept for here go on with {others}.', { others: listed(others.map(({ label }) => label)) })}
          </p>
        )}
      </Form>
    </>
  )
}
