import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { readRoom } from '#lib/db/place/place-room'
import { listPlaces, placeOptions } from '#lib/db/place/queries'
import { isInside, placePath } from '#lib/place/place-tree'
import { ButtonRow, LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { editPlaceAction, movePlaceAction, removePlaceAction } from '../../actions'
import { PlaceFields } from '../../place-fields'
import { placeTitle } from '../../words'

export const generateMetadata = (): Metadata => ({ title: say('Change a place') })

export default async function EditPlacePage({ params }: { params: Promise<{ placeId: string }> }) {
  const { placeId } = await params
  const places = await listPlaces()
  const place = places.find(({ id }) => id === placeId)
  if (!place) notFound()
  const room = await readRoom(place.id)
  const path = placePath(place, new Map(places.map((each) => [each.id, each])))
  const hidden = { id: place.id, version: String(place.version) }
  const elsewhere = placeOptions(places).filter((option) => {
    const there = places.find(({ id }) => id === option.id)
    return there && !isInside(there, place)
  })
  return (
    <>
      <PageHead
        title={say('Change {placeTitle}', { placeTitle: placeTitle(place) })}
        crumbs={[
          { label: say('Places'), href: '/places' },
          ...path.map(({ id, label }) => ({ label, href: `/places/${id}` })),
          { label: say('Change') },
        ]}
      />
      <Form
        action={editPlaceAction}
        hidden={hidden}
        submit={say('Save')}
        actions={<LinkButton href={`/places/${place.id}`}>{say('Leave it')}</LinkButton>}
      >
        <PlaceFields place={place} putUps={room.putUps} />
      </Form>
      <Section title={say('Move it')} note={say('All that is inside it goes along.')}>
        <Form action={movePlaceAction} hidden={hidden} submit={say('Move it')} submitKind="plain">
          <SelectField
            name="toParentId"
            label={say('Stands in')}
            options={elsewhere.map(({ id, pathText }) => ({ value: id, label: pathText }))}
            none={say('nothing: it stands by itself')}
            defaultValue={place.parentId ?? ''}
          />
        </Form>
      </Section>
      {places.some(({ parentId }) => parentId === place.id) && (
        <Section title={say('What stands inside it')} note={say('The order one walks past it, and many more at once.')}>
          <ButtonRow>
            <LinkButton href={`/places/order?inside=${place.id}`}>{say('Put it in order')}</LinkButton>
            <LinkButton href={`/places/many?inside=${place.id}`}>{say('Many more at once')}</LinkButton>
          </ButtonRow>
        </Section>
      )}
      <Section title={say('Merge or split it')} note={say('Its label is remembered and leads on; either can be taken back.')}>
        <ButtonRow>
          <LinkButton href={`/places/${place.id}/merge`}>{say('Merge it into another')}</LinkButton>
          <LinkButton href={`/places/${place.id}/split`}>{say('Split part of it off')}</LinkButton>
          <LinkButton href={`/places/new?after=${place.id}`}>{say('Add one after it')}</LinkButton>
          <LinkButton href="/places/changes" kind="quiet">
            {say('Merged and split before')}
          </LinkButton>
        </ButtonRow>
      </Section>
      <Section title={say('Take it off the map')} note={say('Only once nothing is in it and nothing lives there.')}>
        <ConfirmDialog
          opener={say('Remove {placeTitle}', { placeTitle: placeTitle(place) })}
          title={say('Remove {placeTitle}?', { placeTitle: placeTitle(place) })}
          confirm={say('Remove it')}
          action={removePlaceAction}
          hidden={{ ...hidden, parentId: place.parentId ?? '' }}
        >
          <p>{say('What was ever moved to or from it stays in the history. Its label can be given to another place.')}</p>
        </ConfirmDialog>
      </Section>
    </>
  )
}
