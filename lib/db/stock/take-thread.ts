import 'server-only'
import { type Result, refused } from '#lib/result'
import { planTake } from '#lib/stock/plan-place'
import type { AlreadyThere, NotEnough, NotEnoughFree, NothingParted } from '#lib/stock/stock-change'
import { newId } from '../new-id'
import {
  type BatchEdit,
  changeBatch,
  type EditRefused,
  hasPlace,
  hasProject,
  type NoSuchPlace,
  type NoSuchProject,
  type StockChanged,
} from './change-batch'

export type TakeRefused = NotEnough | NotEnoughFree | NothingParted | AlreadyThere | NoSuchPlace | NoSuchProject | EditRefused

/**
 * Take whole put-ups, the part skein, or both, to another place: they are then out. `batchId` of the answer is what was taken: the
 * batch itself when all of it went, else the one split off.
 *
 * @throws {RangeError} if nothing is taken or the put-ups are not a whole number
 */
export function takeThread(
  input: BatchEdit & {
    wholePutUps: number
    takesPart: boolean
    toPlaceId: string
    projectId?: string | null
    reason?: string | null
  },
): Promise<Result<StockChanged, TakeRefused>> {
  return changeBatch<NotEnough | NotEnoughFree | NothingParted | AlreadyThere | NoSuchPlace | NoSuchProject>(
    input,
    async ({ tx, batch, promises }) => {
      const { wholePutUps, takesPart, toPlaceId, projectId, reason } = input
      if (!(await hasPlace(tx, toPlaceId))) return refused({ kind: 'no-such-place', placeId: toPlaceId })
      if (projectId && !(await hasProject(tx, projectId))) return refused({ kind: 'no-such-project', projectId })
      return planTake(batch, { wholePutUps, takesPart, toPlaceId, projectId, reason, newBatchId: newId(), promises })
    },
  )
}
