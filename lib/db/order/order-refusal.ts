import 'server-only'
import type { NoSuchOwner } from '../stock/change-batch'
import type { ReceiveRefused } from '../stock/receive-thread'

export type OrderRefused =
  | ReceiveRefused
  | NoSuchOwner
  | { kind: 'no-such-order'; orderId: string }
  | { kind: 'nothing-ordered' }
  | { kind: 'order-closed' }
  | { kind: 'all-has-come' }
  | { kind: 'fewer-than-came'; receivedPutUps: number }
  | { kind: 'expected-before-ordered'; orderedOn: string; expectedOn: string }
