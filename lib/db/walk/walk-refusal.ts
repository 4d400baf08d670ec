import 'server-only'
import type { WalkStatus } from '#lib/project/walk'
import type { ReportMissingRefused } from '../missing/report-missing'
import type { ClothChoiceRefused } from '../project/project-row'

export type NoSuchWalk = { kind: 'no-such-walk'; walkId: string }
export type NoSuchLine = { kind: 'no-such-line'; lineId: string }
/** It is done or was dropped. */
export type WalkClosed = { kind: 'walk-closed'; status: WalkStatus }

/** Why nothing was done to a walk. */
export type WalkRefusal =
  | NoSuchWalk
  | NoSuchLine
  | WalkClosed
  | { kind: 'no-such-project'; projectId: string }
  | { kind: 'project-not-open'; title: string }
  /** Another walk that is open pulls for the project already. */
  | { kind: 'already-pulling'; walkId: string; walkTitle: string; title: string }
  | { kind: 'nothing-to-pull' }
  | { kind: 'too-many-projects'; most: number }
  | { kind: 'not-a-pull' }
  | { kind: 'nothing-ticked' }
  | { kind: 'bag-unnamed'; projectId: string; title: string }
  | { kind: 'carried-already' }
  | { kind: 'not-thread' }
  | { kind: 'no-such-batch'; batchId: string }
  /** Neither the same thread nor an accepted stand-in, or not the owner's. */
  | { kind: 'not-instead' }
  /** Other thread was promised of the same colour: to work part of it in another would mix them. */
  | { kind: 'would-mix' }
  | { kind: 'not-enough-free'; freeStrandTenths: number; requestedStrandTenths: number }
  | { kind: 'changed-meanwhile' }
  | Exclude<ReportMissingRefused, { kind: 'not-enough' | 'changed-meanwhile' | 'no-such-batch' }>
  | { kind: 'not-enough' }
  | Extract<ClothChoiceRefused, { kind: 'cloth-reserved' | 'no-such-cloth' }>
