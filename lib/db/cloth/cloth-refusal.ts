import 'server-only'
import type { CutRefusal } from '#lib/cloth/check-cut'
import type { KeptByRecord } from '../place/refuse-kept-by-record'

/** Why a piece of cloth was not written. */
export type ClothRefusal =
  | CutRefusal
  | { kind: 'label-taken'; label: string }
  | { kind: 'no-such-owner'; ownerId: string }
  /** Projects keep it. */
  | { kind: 'reserved'; titles: string[] }
  /** A plan of cuts keeps it. */
  | { kind: 'planned'; planId: string; title: string }
  | KeptByRecord
  | { kind: 'already-there' }
  | { kind: 'already-theirs' }
  | { kind: 'no-home' }
  | { kind: 'worked-up' }
  | { kind: 'changed-meanwhile' }
