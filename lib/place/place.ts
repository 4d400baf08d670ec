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
] as const
export type PlaceKind = (typeof placeKinds)[number]

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
