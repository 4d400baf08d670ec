import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import type { Write } from '../write-gate'
import { ensurePlace } from './ensure-place'
import { type KeptByRecord, refuseKeptByRecord } from './refuse-kept-by-record'

type Lies = { homePlaceId: string | null; currentPlaceId: string | null; outSince: Date | null }

/**
 * Where a piece or a notion lies once it is laid somewhere else: for a while (it is then out) or to live there. A place that is not known
 * yet is made; what has no home finds one wherever it is first laid. What goes from one strange place to the next is out since the day it
 * left home.
 *
 * @returns the columns to write, and what the journal calls it
 */
export async function layElsewhere(
  open: Write,
  held: Lies,
  { toPlaceLabel, becomesHome }: { toPlaceLabel: string; becomesHome: boolean },
): Promise<
  Result<{ lies: Lies & { currentPlaceId: string }; kind: 'return' | 'move' }, KeptByRecord | { kind: 'already-there' }>
> {
  const mayGo = await refuseKeptByRecord(open, toPlaceLabel)
  if (!mayGo.ok) return mayGo
  const currentPlaceId = await ensurePlace(open, toPlaceLabel)
  const homePlaceId = becomesHome || held.homePlaceId === null ? currentPlaceId : held.homePlaceId
  const staysAtHome = homePlaceId === held.homePlaceId
  if (currentPlaceId === held.currentPlaceId && staysAtHome) return refused({ kind: 'already-there' })
  const isAway = isOut({ homePlaceId, currentPlaceId })
  return ok({
    lies: { homePlaceId, currentPlaceId, outSince: isAway ? (held.outSince ?? open.at) : null },
    kind: !isAway && staysAtHome ? 'return' : 'move',
  })
}
