import type { ShopListStatus } from '#lib/planning/buying/shop-list'
import type { NoSuchOwner } from '../stock/change-batch'

export type NoSuchList = { kind: 'no-such-list'; listId: string }
export type ListClosed = { kind: 'list-closed'; status: ShopListStatus }
export type ChangedMeanwhile = { kind: 'changed-meanwhile' }

/** Why nothing was done to a list one shops by. */
export type BuyingRefused =
  | NoSuchList
  | ListClosed
  | ChangedMeanwhile
  | NoSuchOwner
  | { kind: 'no-such-line'; lineId: string }
  | { kind: 'no-such-thread'; threadId: string }
  | { kind: 'no-such-design'; designId: string }
  | { kind: 'no-such-project'; projectId: string }
  /** Something of it is in stock: untick it first. */
  | { kind: 'line-bought'; lineId: string }
  | { kind: 'too-many-lines'; most: number }
