import type { Metadata } from 'next'
import Link from 'next/link'
import { listOut, outShown } from '#lib/db/place/contents'
import { countInPlaces } from '#lib/db/place/place-counts'
import { listPlaces } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '../_viewer/viewer'
import { counted } from '../_words/amounts'
import { type Furnishing, Furniture } from './furniture'
import { OutTable } from './out-table'
import { describeHolding, placeTitle } from './words'

export const metadata: Metadata = { title: 'Places' }

export default async function PlacesPage() {
  const { settings, ownerIds, ownerName } = await getViewer()
  const places = await listPlaces()
  const [{ byPlace, nowhere, everywhere }, out] = await Promise.all([countInPlaces(ownerIds, places), listOut(ownerIds, null)])
  const countsOf = (id: string) => byPlace.get(id) ?? everywhere
  const furnish = (parentId: string | null): Furnishing[] =>
    places
      .filter((place) => place.parentId === parentId)
      .map((place) => ({
        place,
        counts: countsOf(place.id),
        inside: places
          .filter(({ parentId }) => parentId === place.id)
          .map((inside) => ({ place: inside, counts: countsOf(inside.id) })),
      }))
  const top = furnish(null)
  const rooms = top.filter(({ place, inside }) => place.kind === 'room' && inside.length > 0)
  const loose = top.filter((item) => !rooms.includes(item))
  const unplaced = describeHolding(nowhere)
  const now = new Date()

  return (
    <>
      <PageHead
        title="Places"
        note={places.length > 0 && counted(places.length, 'place')}
        actions={<LinkButton href="/places/new">Add a place</LinkButton>}
        byline={
          ownerName &&
          `What ${ownerName} keeps, and where. Places are everybody’s; what is counted in them is ${ownerName === 'everyone' ? 'everybody’s' : 'theirs'}.`
        }
      >
        {out.length > 0 && (
          <a href="#out">
            {out.length === outShown
              ? `${outShown} things or more are out`
              : out.length === 1
                ? '1 thing is out'
                : `${out.length} things are out`}
          </a>
        )}
      </PageHead>
      <PrintLine>Places of {ownerName}</PrintLine>

      {places.length === 0 && (
        <Empty
          title="No places yet"
          actions={
            <>
              <LinkButton kind="first" href="/places/new">
                Add a place
              </LinkButton>
              <LinkButton href="/bring-in">Bring in a spreadsheet</LinkButton>
            </>
          }
        >
          A place is a room, a cabinet, a drawer, a box, a bag, or a person who has something of yours. Give it the label that is
          written on it, and everything can say where it lives.
        </Empty>
      )}

      {rooms.map((room) => (
        <Section
          key={room.place.id}
          title={<Link href={`/places/${room.place.id}`}>{placeTitle(room.place)}</Link>}
          note={describeHolding(room.counts)}
        >
          <Furniture items={furnish(room.place.id)} label={`In ${room.place.label}`} />
        </Section>
      ))}
      {loose.length > 0 && (
        <Section title={rooms.length > 0 ? 'Not in a room' : 'All places'}>
          <Furniture items={loose} label={rooms.length > 0 ? 'Not in a room' : 'All places'} />
        </Section>
      )}

      {unplaced && (
        <Section title="No place given">
          <p>
            {unplaced} {isOne(nowhere) ? 'has' : 'have'} no place yet, so nothing can say where to look.
          </p>
        </Section>
      )}

      {out.length > 0 && (
        <Section
          id="out"
          title="Out"
          note={
            out.length === outShown ? `The ${outShown} that have been out longest.` : 'Not where they live; out longest first.'
          }
        >
          <OutTable things={out} caption="What is out" now={now} settings={settings} />
        </Section>
      )}
    </>
  )
}

const isOne = (counts: { threads: number; cloth: number; charts: number; projects: number }) =>
  counts.threads + counts.cloth + counts.charts + counts.projects === 1
