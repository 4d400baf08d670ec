import 'server-only'
import { tickMoment } from '#lib/project/later-tick'
import { ok, type Result, refused } from '#lib/result'
import type { CountStatus } from '#lib/stock/stocktake'
import { newId } from '../new-id'
import { write } from '../write'
import type { EnterRefused } from './count-refusal'

export type CountEntered = {
  lineId: string
  counted: number
  /** When the figure the person saw was counted; null when they saw none. */
  sawCountedAt: Date | null
  /** When it was counted, by the clock of whoever did: a figure may wait on a device without a network. Left out: now. */
  countedAt?: Date
}

/** Something that stands in a counted place and is not on its sheet. */
export type ThingFound = {
  placeId: string
  /** Maker, line and code, as the label says. */
  found: string
  counted: number
}

/** A line somebody else counted otherwise in the meantime: theirs stays. */
export type CountConflict = { lineId: string; counted: number; countedAt: Date | null; countedBy: string | null }

type CountsWritten = {
  written: number
  conflicts: CountConflict[]
  foundLineIds: string[]
  /** Lines that now say what was sent, and since when. */
  entered: { lineId: string; countedAt: Date }[]
  /** Lines no longer on the sheet: a thing found that another took off again. */
  unknownLineIds: string[]
}

/**
 * Write down what was counted. A figure that another person wrote meanwhile is not written over: it is given back, to be looked at by
 * both. The same figure twice is agreement.
 *
 * A line sent to be counted again is held against the record of this moment. Of a thing found where the record has nothing, none
 * takes the line away. A figure that comes late keeps the moment it was counted at, so that stock which moved after it is seen to have moved.
 */
export function enterCounts(input: {
  countId: string
  by: string
  entered: readonly CountEntered[]
  /** Only while the count is open. */
  found?: readonly ThingFound[]
  /** What the clock of `countedAt` said when the figures were sent, so that one that is plainly wrong is put right. */
  sentAt?: Date
}): Promise<Result<CountsWritten, EnterRefused>> {
  return write<CountsWritten, EnterRefused>(async ({ tx, at }) => {
    const { countId, by } = input
    const count = await tx.stockCount.findUnique({
      where: { id: countId },
      select: { status: true, place: { select: { path: true } } },
    })
    if (!count) return refused({ kind: 'no-such-count' })
    const status = count.status as CountStatus
    if (status !== 'open' && status !== 'counted') return refused({ kind: 'not-open', status })
    const found = (input.found ?? []).map((thing) => ({ ...thing, id: newId() }))
    if (found.length > 0) {
      if (status !== 'open') return refused({ kind: 'not-open', status })
      const placeIds = [...new Set(found.map(({ placeId }) => placeId))]
      const inCount = { id: { in: placeIds }, goneAt: null, path: { startsWith: count.place.path } }
      if ((await tx.place.count({ where: inCount })) < placeIds.length) return refused({ kind: 'not-in-count' })
    }
    const rows = await tx.stockCountLine.findMany({
      where: { countId },
      select: {
        ...{ id: true, placeId: true, counted: true, countedAt: true, countedBy: true, outcome: true },
        batch: { select: { wholePutUps: true, homePlaceId: true, currentPlaceId: true, goneAt: true } },
      },
    })
    const rowById = new Map(rows.map((row) => [row.id, row]))
    const conflicts: CountConflict[] = []
    const entered: CountsWritten['entered'] = []
    const unknownLineIds: string[] = []
    const sentAtMs = input.sentAt?.getTime()
    let written = 0
    for (const { lineId, counted, sawCountedAt, countedAt } of input.entered) {
      const row = rowById.get(lineId)
      if (!row) {
        unknownLineIds.push(lineId)
        continue
      }
      if (row.counted === counted) {
        entered.push({ lineId, countedAt: row.countedAt ?? at })
        continue
      }
      const isRecount = row.outcome === 'recount'
      if (status === 'counted' && !isRecount) return refused({ kind: 'not-open', status })
      if ((row.countedAt?.getTime() ?? null) !== (sawCountedAt?.getTime() ?? null) && row.counted !== null) {
        conflicts.push({ lineId, counted: row.counted, countedAt: row.countedAt, countedBy: row.countedBy })
        continue
      }
      written += 1
      if (row.batch === null && counted === 0) {
        await tx.stockCountLine.delete({ where: { id: lineId } })
        continue
      }
      const { batch } = row
      const saidAtMs = countedAt ? tickMoment({ tickedAtMs: countedAt.getTime(), sentAtMs }, at.getTime()) : at.getTime()
      // Whoever puts another figure in its place has seen the one that stood there.
      const countedAtNow = new Date(Math.max(saidAtMs, (row.countedAt?.getTime() ?? 0) + 1))
      entered.push({ lineId, countedAt: countedAtNow })
      const isHere = batch?.goneAt === null && (batch.currentPlaceId ?? batch.homePlaceId) === row.placeId
      await tx.stockCountLine.update({
        where: { id: lineId },
        data: {
          ...{ counted, countedAt: countedAtNow, countedBy: by },
          ...(isRecount && batch && { expected: isHere ? batch.wholePutUps : 0 }),
        },
      })
    }
    if (found.length > 0) {
      await tx.stockCountLine.createMany({
        data: found.map((thing) => ({ ...thing, countId, expected: 0, countedAt: at, countedBy: by })),
      })
    }
    return ok({ written, conflicts, foundLineIds: found.map(({ id }) => id), entered, unknownLineIds })
  })
}
