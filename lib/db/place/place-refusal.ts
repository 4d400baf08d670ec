import 'server-only'

/** Why a place was not written. */
export type PlaceRefusal =
  | { kind: 'label-taken'; label: string; placeId: string }
  | { kind: 'no-such-place'; placeId: string }
  | { kind: 'inside-itself'; placeId: string }
  | { kind: 'already-there' }
  | { kind: 'changed-meanwhile' }
  | { kind: 'not-empty'; places: number; threads: number; cloth: number; charts: number; notions: number; projects: number }
