import 'server-only'
import type { StashMovement } from '#lib/planning/plots/stash-months'
import { calendarDay } from '#lib/quantity/day'
import type { MovementKind } from '#lib/stock/stock-change'
import { timestamp } from '../bulk-insert'
import { number, text, textOrNull } from '../cells'
import { database } from '../client'
import { type Cell, readSnapshot } from '../read-snapshot'

export type StashMovements = { thread: StashMovement[]; cloth: StashMovement[]; charts: StashMovement[] }

/**
 * Everything that was gained or lost from a moment on, whoever's: put-ups of thread, a part as its share of one; pieces of cloth; copies
 * of charts. A batch that changed hands whole is told by what its movements came to by then.
 */
export function readStashMovements(since: Date): Promise<StashMovements> {
  const found: StashMovements = { thread: [], cloth: [], charts: [] }
  const past = (column: string) =>
    `(SELECT SUM(x."${column}") FROM "Movement" x WHERE x."batchId" = m."batchId" AND x."revision" <= m."revision")`
  const whole = (column: string) =>
    `CASE WHEN m."kind" = 'transfer' AND m."wholeDelta" = 0 AND m."partDeltaStrandTenths" = 0 AND m."batchId" IS NOT NULL
      THEN ${past(column)} ELSE m."${column}" END`
  const sql = `SELECT CAST(m."at" AS TEXT), m."kind", m."batchId", m."clothPieceId", ${whole('wholeDelta')},
      ${whole('partDeltaStrandTenths')}, b."putUpStrandTenths",
      COALESCE(m."toOwnerId", m."fromOwnerId", b."ownerId", c."ownerId", h."ownerId"), m."fromOwnerId", m."toOwnerId"
    FROM "Movement" m
    LEFT JOIN "Batch" b ON b."id" = m."batchId"
    LEFT JOIN "ClothPiece" c ON c."id" = m."clothPieceId"
    LEFT JOIN "Chart" h ON h."id" = m."chartId"
    WHERE m."at" >= ? AND m."notionId" IS NULL AND m."kind" NOT IN ('move', 'take', 'return', 'split', 'merge')`
  return readSnapshot(database(), async (rows) => {
    for await (const some of rows(sql, [timestamp(since)])) for (const row of some) takeRow(found, row)
    return found
  })
}

function takeRow(found: StashMovements, row: Cell[]): void {
  const [at, kind, batchId, clothPieceId, wholeDelta, partDelta, putUp, ownerId, fromOwnerId, toOwnerId] = row
  // Both engines keep moments in universal time; each writes them its own way.
  const day = calendarDay(new Date(`${text(at).slice(0, 19).replace(' ', 'T')}Z`))
  const isCloth = clothPieceId !== null
  const share = batchId === null ? 0 : number(partDelta) / Math.max(1, number(putUp))
  const isHandedOver = kind === 'transfer' && batchId === null
  const movement: StashMovement = {
    ...{ day, kind: text(kind) as MovementKind },
    amount: isHandedOver && number(wholeDelta) === 0 ? 1 : number(wholeDelta) + share,
    ...{ ownerId: textOrNull(ownerId), fromOwnerId: textOrNull(fromOwnerId), toOwnerId: textOrNull(toOwnerId) },
  }
  if (batchId !== null) found.thread.push(movement)
  else if (isCloth) found.cloth.push(movement)
  else found.charts.push(movement)
}
