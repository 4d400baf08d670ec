export const placeKinds = [
  'room',
  'cabinet',
  'drawer',
  'compartment',
  'rack',
  'shelf',
  'box',
  'bag',
  'ring',
  'bin',
  'folder',
  'person',
  'framer',
  'finisher',
  'model stitcher',
  'not found',
] as const
export type PlaceKind = (typeof placeKinds)[number]

/** Places that are people: what is there is with somebody. */
export const peopleKinds = ['person', 'framer', 'finisher', 'model stitcher'] as const satisfies PlaceKind[]

export const isPeople = (kind: PlaceKind): boolean => peopleKinds.some((each) => each === kind)

/** A kind a person gives a place; the record alone makes the one where things are that were looked for in vain. */
export type GivenPlaceKind = Exclude<PlaceKind, 'not found'>

export const givenPlaceKinds = placeKinds.filter((kind): kind is GivenPlaceKind => kind !== 'not found')

/** Somewhere a thing can be: a room, a drawer, a bag, a person. Places nest. */
export type Place = {
  id: string
  /** What the label on it says, exact: T2.1-14. */
  label: string
  name: string | null
  kind: PlaceKind
  parentId: string | null
  /** Ids from the top down to this one, each closed by a slash: /a/b/. */
  path: string
  /** Set only where the walk does not follow the labels' own order. */
  walkOrder: number | null
  capacity: number | null
}
