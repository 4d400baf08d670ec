import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { countMissing } from '#lib/db/missing/queries'
import { listOut } from '#lib/db/place/list-out'
import { countInPlaces } from '#lib/db/place/place-counts'
import { listPlaces } from '#lib/db/place/queries'
import { readFills } from '#lib/db/place/read-fills'
import { isFullerThan } from '#lib/place/capacity'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { OpenWalks } from '../_walk/open-walks'
import { FullSection } from './full-section'
import { type Furnishing, Furniture } from './furniture'
import { OutTable } from './out-table'
import s from './places.module.css'
import { RemovedNotice } from './removed-notice'
import { placePageSchema } from './schema'
import { describeHolding, placeTitle } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Places') })

const outPerPage = 100
/** Past three-quarters a drawer soon wants more room: common practice (working shelves are kept 70 to 75 % full). */
const usualShare = 75

export default async function PlacesPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { page, removed, full } = placePageSchema.parse(await searchParams)
  const { settings, ownerIds, ownerName } = await getViewer()
  const places = await listPlaces()
  const offset = (page - 1) * outPerPage
  const [missing, { byPlace, nowhere, everywhere }, { things: out, total: outCount }, fills] = await Promise.all([
    countMissing(ownerIds),
    countInPlaces(ownerIds, places),
    listOut({ ownerIds, insidePath: null }, { offset, limit: outPerPage }),
    readFills(places),
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
  const shownRooms = full === undefined ? rooms : []
  const fullCount = [...fills.values()].filter(({ fill }) => isFullerThan(fill, usualShare)).length
  const unplaced = describeHolding(nowhere)
  const now = new Date()

  return (
    <>
      <PageHead
        title={say('Places')}
        note={places.length > 0 && counted(places.length, 'place')}
        actions={
          <>
            <LinkButton href="/loans">{say('Out and back')}</LinkButton>
            <LinkButton href="/notions">{say('Notions')}</LinkButton>
            <LinkButton href="/places/new">{say('Add a place')}</LinkButton>
            <LinkButton href="#more">{say('More to do')}</LinkButton>
          </>
        }
        byline={
          ownerName &&
          say(
            'What {ownerName} keeps, and where. Places are everybody’s; what is counted in them is {isEveryone, select, yes {everybody’s} other {theirs}}.',
            { ownerName, isEveryone: ownerName === 'everyone' },
          )
        }
      >
        {outCount > 0 && (
          <a href={full === undefined ? '#out' : '/places#out'}>
            {say('{outCount, plural, one {# thing} other {# things}} {outCount, plural, one {is} other {are}} out', { outCount })}
          </a>
        )}
        {missing > 0 && (
          <>
            {outCount > 0 && '; '}
            <Link href="/missing">{sayParts('{missing} missing', { missing })}</Link>
          </>
        )}
        {outCount + missing > 0 && fills.size > 0 && '; '}
        {fills.size > 0 && (
          <Link href={`/places?full=${usualShare}#full`}>{sayParts('{fullCount} over three-quarters full', { fullCount })}</Link>
        )}
      </PageHead>
      <OpenWalks />
      <PrintLine>{sayParts('Places of {ownerName}', { ownerName })}</PrintLine>
      <RemovedNotice placeId={removed} />
      {places.length === 0 && (
        <Empty
          title={say('No places yet')}
          actions={
            <>
              <LinkButton kind="first" href="/places/new">
                {say('Add a place')}
              </LinkButton>
              <LinkButton href="/bring-in">{say('Bring in a spreadsheet')}</LinkButton>
            </>
          }
        >
          {say(
            'A place is a room, a cabinet, a drawer, a box, a bag, or a person who has something of yours. Give it the label that is written on it, and everything can say where it lives.',
          )}
        </Empty>
      )}
      {full !== undefined && places.length > 0 && <FullSection places={places} fills={fills} percent={full} />}
      {shownRooms.map((room) => (
        <Section
          key={room.place.id}
          title={<Link href={`/places/${room.place.id}`}>{placeTitle(room.place)}</Link>}
          note={describeHolding(room.counts)}
        >
          <Furniture items={furnish(room.place.id)} label={say('In {label}', { label: room.place.label })} />
        </Section>
      ))}
      {full === undefined && loose.length > 0 && (
        <Section title={rooms.length > 0 ? say('Not in a room') : say('All places')}>
          <Furniture items={loose} label={rooms.length > 0 ? say('Not in a room') : say('All places')} />
        </Section>
      )}
      {unplaced && (
        <Section title={say('No place given')}>
          <p>
            {sayParts('{unplaced} {hasIsOne, select, yes {has} other {have}} no place yet, so nothing can say where to look.', {
              unplaced,
              hasIsOne: Boolean(isOne(nowhere)),
            })}
          </p>
        </Section>
      )}
      {full === undefined && out.length > 0 && (
        <Section id="out" title={say('Out')} note={say('Not where they live; out longest first.')}>
          <OutTable things={out} caption={say('What is out')} now={now} settings={settings} />
          {outCount > outPerPage && (
            <Pager
              page={page}
              pages={Math.ceil(outCount / outPerPage)}
              hrefForPage={(to) => `/places?page=${to}#out`}
              shown={say('{offset} to {offset2} of {outCount}', { offset: offset + 1, offset2: offset + out.length, outCount })}
            />
          )}
        </Section>
      )}
      <Section title={say('More to do with places')} id="more">
        <ul className={s.more}>
          <li>
            {sayParts('<link>Many at once</link>: a wall of drawers, labelled by your own pattern.', {
              link: (words) => <Link href="/places/many">{words}</Link>,
            })}
          </li>
          {places.length > 1 && (
            <li>
              {sayParts('<link>Order</link>: where the walk does not follow the labels.', {
                link: (words) => <Link href="/places/order">{words}</Link>,
              })}
            </li>
          )}
          <li>
            {sayParts('<link>Labels</link>: to print, with a code that a phone opens.', {
              link: (words) => <Link href="/labels">{words}</Link>,
            })}
          </li>
          <li>
            {sayParts('<link>Filing plan</link>: which drawer each code goes in.', {
              link: (words) => <Link href="/places/filing">{words}</Link>,
            })}
          </li>
          <li>
            {sayParts('<link>Merged and split</link>: what became of which place, and taking it back.', {
              link: (words) => <Link href="/places/changes">{words}</Link>,
            })}
          </li>
        </ul>
      </Section>
    </>
  )
}

const isOne = (counts: { threads: number; cloth: number; charts: number; notions: number; projects: number }) =>
  counts.threads + counts.cloth + counts.charts + counts.notions + counts.projects === 1
