import type { Metadata } from 'next'
import Link from 'next/link'
import { listOut } from '#lib/db/place/list-out'
import { countInPlaces } from '#lib/db/place/place-counts'
import { listPlaces } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { type Furnishing, Furniture } from './furniture'
import { OutTable } from './out-table'
import { RemovedNotice } from './removed-notice'
import { placePageSchema } from './schema'
import { describeHolding, placeTitle } from './words'

export const metadata: Metadata = { title: 'Places' }

const outPerPage = 100

export default async function PlacesPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { page, removed } = placePageSchema.parse(await searchParams)
  const { settings, ownerIds, ownerName } = await getViewer()
  const places = await listPlaces()
  const offset = (page - 1) * outPerPage
  const [{ byPlace, nowhere, everywhere }, { things: out, total: outCount }] = await Promise.all([
    countInPlaces(ownerIds, places),
    listOut({ ownerIds, insidePath: null }, { offset, limit: outPerPage }),
  ])
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
        actions={
          <>
            <LinkButton href="/notions">Notions</LinkButton>
            <LinkButton href="/places/filing">Filing plan</LinkButton>
            <LinkButton href="/labels">Labels</LinkButton>
            <LinkButton href="/places/new">Add a place</LinkButton>
          </>
        }
        byline={
          ownerName &&
          `What ${ownerName} keeps, and where. Places are everybody’s; what is counted in them is ${ownerName === 'everyone' ? 'everybody’s' : 'theirs'}.`
        }
      >
        {outCount > 0 && (
          <a href="#out">
            {counted(outCount, 'thing')} {outCount === 1 ? 'is' : 'are'} out
          </a>
        )}
      </PageHead>
      <PrintLine>Places of {ownerName}</PrintLine>
      <RemovedNotice placeId={removed} />

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
        <Section id="out" title="Out" note="Not where they live; out longest first.">
          <OutTable things={out} caption="What is out" now={now} settings={settings} />
          {outCount > outPerPage && (
            <Pager
              page={page}
              pages={Math.ceil(outCount / outPerPage)}
              hrefForPage={(to) => `/places?page=${to}#out`}
              shown={`${offset + 1} to ${offset + out.length} of ${outCount}`}
            />
          )}
        </Section>
      )}
    </>
  )
}

const isOne = (counts: { threads: number; cloth: number; charts: number; notions: number; projects: number }) =>
  counts.threads + counts.cloth + counts.charts + counts.notions + counts.projects === 1
