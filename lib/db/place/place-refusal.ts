import 'server-only'
import type { MergeRefused } from '#lib/place/merge-places'

/** Why a place was not written. */
export type PlaceRefusal =
  | { kind: 'label-taken'; label: string; placeId: string }
  | { kind: 'no-such-place'; placeId: string }
  | { kind: 'inside-itself'; placeId: string }
  | { kind: 'already-there' }
  | { kind: 'changed-meanwhile' }
  | { kind: 'not-empty'; places: number; threads: number; cloth: number; charts: number; notions: number; projects: number }
  | MergeRefused
  /** A count that is open has its sheet there. */
  | { kind: 'being-counted'; label: string }
  /** Nothing was chosen to go to the new place. */
  | { kind: 'nothing-chosen' }
  /** Something chosen does not live there any more. */
  | { kind: 'not-from-here'; count: number }
  | { kind: 'no-such-change'; changeId: string }
  | { kind: 'already-undone'; changeId: string }
