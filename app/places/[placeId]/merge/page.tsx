import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { countInPlaces } from '#lib/db/place/place-counts'
import { readRoom } from '#lib/db/place/place-room'
import { listPlaces, placeOptions } from '#lib/db/place/queries'
import { isPeople } from '#lib/place/place'
import { isInside, placePath } from '#lib/place/place-tree'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { CheckField, SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { mergePlaceAction } from '../../change-actions'
import { describeHolding, placeTitle } from '../../words'

export const generateMetadata = (): Metadata => ({ title: say('Merge a place into another') })

export default async function MergePlacePage({ params }: { params: Promise<{ placeId: string }> }) {
  const { placeId } = await params
  const [places, { owners }] = await Promise.all([listPlaces(), getViewer()])
  const place = places.find(({ id }) => id === placeId)
  if (!place) notFound()
  const everybody = owners.map(({ id }) => id)
  const [{ byPlace }, room] = await Promise.all([countInPlaces(everybody, places), readRoom(placeId)])
  const counts = byPlace.get(placeId)
  const inside = places.filter(({ parentId }) => parentId === placeId)
  const choices = placeOptions(places).filter((option) => {
    const there = places.find(({ id }) => id === option.id)
    const isOneSort = there && isPeople(there.kind) === isPeople(place.kind) && there.kind !== 'not found'
    return isOneSort && !isInside(there, place)
  })
  const holding = counts ? describeHolding(counts) : ''
  const going = [
    holding,
    inside.length > 0 ? say('{inside, plural, one {# place} other {# places}} inside it', { inside: inside.length }) : '',
  ].filter((words) => words !== '')
  const goesWords =
    going.length > 0
      ? say('All that is in it ({going})', { going: listed(going) })
      : say('It is empty; whatever lives in it but is out')
  const hasRoom = room.capacity !== null || room.putUps.length > 0
  const path = placePath(place, new Map(places.map((each) => [each.id, each])))
  return (
    <>
      <PageHead
        title={say('Merge {placeTitle} into another', { placeTitle: placeTitle(place) })}
        crumbs={[
          { label: say('Places'), href: '/places' },
          ...path.map(({ id, label }) => ({ label, href: `/places/${id}` })),
          { label: say('Merge') },
        ]}
        byline={say('{goesWords} goes to the other place, whoever it belongs to. Its label is remembered, and leads there.', {
          goesWords,
        })}
      />
      {choices.length === 0 || place.kind === 'not found' ? (
        <Empty
          title={say('There is no place it could go into')}
          actions={<LinkButton href={`/places/${place.id}`}>{say('Back to it')}</LinkButton>}
        >
          {say('A drawer, box or bag goes into another; a person’s goods go to another person.')}
        </Empty>
      ) : (
        <Section title={say('Where it goes')} note={say('It can be taken back afterwards, as far as nothing else was changed.')}>
          <Form
            action={mergePlaceAction}
            hidden={{ id: place.id, version: String(place.version) }}
            submit={say('Merge {label}', { label: place.label })}
            pending={say('Merging')}
            actions={<LinkButton href={`/places/${place.id}`}>{say('Leave it')}</LinkButton>}
          >
            <SelectField
              name="intoId"
              label={say('Goes into')}
              options={choices.map(({ id, pathText }) => ({ value: id, label: pathText }))}
              none={say('choose a place')}
              isRequired
            />
            {hasRoom && (
              <CheckField
                name="addsRoom"
                label={say('The other takes what {label} took, besides its own', { label: place.label })}
                hint={say('Untick it when the goods are tipped together and the room stays as it was.')}
                defaultChecked
              />
            )}
          </Form>
        </Section>
      )}
    </>
  )
}
