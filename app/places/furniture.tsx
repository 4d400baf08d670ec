import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { PlaceCounts } from '#lib/db/place/place-counts'
import type { PlaceRecord } from '#lib/db/place/place-rows'
import { DrawerFront } from '#trade/drawer-front'
import { PlaceMark } from '#trade/place-mark'
import { Link } from '#ui/link'
import s from './furniture.module.css'
import { describeFront, placeTitle } from './words'

/** Fronts drawn of one cabinet; past them its own page is the better way in. */
const frontsShown = 16

export type Furnishing = {
  place: PlaceRecord
  counts: PlaceCounts
  /** What stands right inside it. */
  inside: { place: PlaceRecord; counts: PlaceCounts }[]
}

/** Cabinets with their drawer fronts, and what stands beside them: boxes, bags, racks. */
export function Furniture({ items, label }: { items: readonly Furnishing[]; label: string }) {
  const cabinets = items.filter(({ inside }) => inside.length > 0)
  const singles = items.filter(({ inside }) => inside.length === 0)
  return (
    <div className={s.room}>
      {cabinets.length > 0 && (
        <ul className={s.cabinets} aria-label={label}>
          {cabinets.map((item) => (
            <li key={item.place.id}>
              <Cabinet item={item} />
            </li>
          ))}
        </ul>
      )}
      {singles.length > 0 && (
        <ul className={s.singles} aria-label={cabinets.length > 0 ? say('{label}, beside the rest', { label }) : label}>
          {singles.map((item) => (
            <li key={item.place.id}>
              <DrawerFront
                label={item.place.label}
                note={frontNote(item)}
                kind={item.place.kind}
                href={`/places/${item.place.id}`}
              />
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

function Cabinet({ item }: { item: Furnishing }) {
  const { place, counts, inside } = item
  const more = inside.length - frontsShown
  return (
    <>
      <h3 className={s.name}>
        <PlaceMark kind={place.kind} width={30} />
        <span>
          <Link href={`/places/${place.id}`}>{placeTitle(place)}</Link>
          <small>{[place.name, describeFront(counts)].filter(Boolean).join(': ')}</small>
        </span>
      </h3>
      <ol className={s.cabinet}>
        {inside.slice(0, frontsShown).map((front) => (
          <li key={front.place.id}>
            <DrawerFront
              label={front.place.label}
              note={frontNote(front)}
              kind={front.place.kind}
              href={`/places/${front.place.id}`}
              size="small"
            />
          </li>
        ))}
      </ol>
      {more > 0 && (
        <p className={s.more}>
          <Link href={`/places/${place.id}`}>{sayParts('and {more} more inside', { more })}</Link>
        </p>
      )}
    </>
  )
}

const frontNote = ({ place, counts }: { place: PlaceRecord; counts: PlaceCounts }) => (
  <>
    {place.name && <span className={s.line}>{place.name}</span>}
    <span className={s.line}>{describeFront(counts)}</span>
  </>
)

type BesideProps = { parent: PlaceRecord; siblings: readonly PlaceRecord[]; currentId: string }

/** Fronts above and below the current one, so that a long cabinet still shows where one stands in it. */
const frontsAround = 6

/** The cabinet one stands at, with the current front pulled out. */
export function CabinetBeside({ parent, siblings, currentId }: BesideProps) {
  const current = siblings.findIndex(({ id }) => id === currentId)
  const from = Math.max(0, current - frontsAround)
  const shown = siblings.slice(from, current + frontsAround + 1)
  const below = siblings.length - from - shown.length
  return (
    <aside className={s.beside} aria-label={say('Fronts of {placeTitle}', { placeTitle: placeTitle(parent) })}>
      {from > 0 && <p className={s.more}>{sayParts('{from} above', { from })}</p>}
      <ol className={s.cabinet}>
        {shown.map((place) => (
          <li key={place.id} data-current={place.id === currentId || undefined}>
            <DrawerFront
              label={place.label}
              note={place.name}
              kind={place.kind}
              href={`/places/${place.id}`}
              isCurrent={place.id === currentId}
              size="small"
            />
          </li>
        ))}
      </ol>
      {below > 0 && <p className={s.more}>{sayParts('{below} below', { below })}</p>}
      <p className={s.more}>
        <Link href={`/places/${parent.id}`}>{placeTitle(parent)}</Link>
      </p>
    </aside>
  )
}
