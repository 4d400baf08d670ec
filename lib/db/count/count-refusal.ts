import type { CountStatus } from '#lib/stock/stocktake'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'

type NoSuchCount = { kind: 'no-such-count' }
type NotOpen = { kind: 'not-open'; status: CountStatus }

export type StartRefused =
  | { kind: 'no-such-place' }
  | { kind: 'nothing-there' }
  | { kind: 'too-many'; lines: number; most: number }
  | { kind: 'already-counting'; countId: string; title: string }
export type EnterRefused = NoSuchCount | NotOpen | { kind: 'not-in-count' }
export type CloseRefused =
  | NoSuchCount
  | NotOpen
  | { kind: 'nothing-counted' }
  | { kind: 'not-compared'; status: CountStatus }
  | { kind: 'undecided'; lines: number }
  | { kind: 'own-work' }
export type DecideRefused =
  | NoSuchCount
  | { kind: 'no-such-line' }
  | { kind: 'not-compared'; status: CountStatus }
  | { kind: 'not-different' }
  | { kind: 'decided-already' }
  | { kind: 'not-on-record' }
  | { kind: 'moved-since' }
  | ChangedMeanwhile

export type CountRefusal = StartRefused | EnterRefused | CloseRefused | DecideRefused
