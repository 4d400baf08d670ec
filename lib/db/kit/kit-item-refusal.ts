import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import type { NoSuchProject } from '../stock/change-batch'

/** Why something that goes into a kit was not written. */
export type KitItemRefusal =
  | NoSuchProject
  /** The project is finished or given up. */
  | { kind: 'kit-closed' }
  | { kind: 'no-such-item'; itemId: string }
  | { kind: 'no-such-notion'; notionId: string }
  /** The stock belongs to another owner than the kits. */
  | { kind: 'other-owner' }
  /** Bags that are packed have it, or have it not: its number does not change under them. */
  | { kind: 'bags-packed'; bags: number }
  | { kind: 'too-many-items'; most: number }
  | ChangedMeanwhile
