import 'server-only'
import type { PricedPiece } from '#lib/cloth/piece-price'
import type { LeftoverHow } from '#lib/project/plan-finish'
import { isTrue, number, numberOrNull, text, textOrNull } from '../cells'
import { database } from '../client'
import { type Cell, type ReadRows, readSnapshot } from '../read-snapshot'

export type UsedThread = {
  threadId: string
  strandTenths: number
  /** Strands its line is parted into. */
  strands: number
  putUpStrandTenths: number
  putUpPriceMinor: number | null
  /** How its use is known: by what was left, measured or weighed; null where it was reckoned or said. */
  how: LeftoverHow | null
}

export type Used = {
  /** By project. */
  threads: Map<string, UsedThread[]>
  clothIds: Map<string, string[]>
  /** Every piece of the owners of that cloth, used up or not. */
  pieces: PricedPiece[]
}

/** Which projects are meant: one, or all that were finished in a year. */
export type FinishScope = { projectId: string } | { ownerIds: readonly string[]; year: string }

function scopeSql(scope: FinishScope): { sql: string; values: Cell[] } {
  if ('projectId' in scope) return { sql: `p."id" = ?`, values: [scope.projectId] }
  const among = scope.ownerIds.map(() => '?').join(', ') || 'NULL'
  return {
    sql: `p."status" = 'finished' AND p."goneAt" IS NULL AND p."finishedOn" >= ? AND p."finishedOn" <= ? AND p."ownerId" IN (${among})`,
    values: [`${scope.year}-01-01`, `${scope.year}-12-31`, ...scope.ownerIds],
  }
}

/** Thread and cloth that finished pieces used up, by the journal. */
export function readUsed(scope: FinishScope): Promise<Used> {
  const { sql: within, values } = scopeSql(scope)
  return readSnapshot(database(), async (rows) => {
    const hows = new Map<string, LeftoverHow>()
    await each(
      rows,
      `SELECT r."projectId", r."threadId", r."how" FROM "UseReading" r JOIN "Project" p ON p."id" = r."projectId" WHERE ${within}`,
      values,
      ([projectId, threadId, how]) => hows.set(`${projectId} ${threadId}`, text(how) as LeftoverHow),
    )
    const threads = new Map<string, Map<string, UsedThread>>()
    await each(
      rows,
      `SELECT m."projectId", b."threadId", -(m."wholeDelta" * b."putUpStrandTenths" + m."partDeltaStrandTenths"), l."strands",
          l."putUpStrandTenths", l."priceMinor"
        FROM "Movement" m JOIN "Project" p ON p."id" = m."projectId" JOIN "Batch" b ON b."id" = m."batchId"
        JOIN "Thread" t ON t."id" = b."threadId" JOIN "ThreadLine" l ON l."id" = t."lineId"
        WHERE m."kind" = 'use' AND ${within} ORDER BY m."id"`,
      values,
      ([project, thread, used, strands, putUp, price]) => {
        const [projectId, threadId] = [text(project), text(thread)]
        const ofProject = threads.get(projectId) ?? new Map<string, UsedThread>()
        const known = ofProject.get(threadId) ?? {
          ...{ threadId, strandTenths: 0, strands: number(strands), putUpStrandTenths: number(putUp) },
          ...{ putUpPriceMinor: numberOrNull(price), how: hows.get(`${projectId} ${threadId}`) ?? null },
        }
        known.strandTenths += number(used)
        ofProject.set(threadId, known)
        threads.set(projectId, ofProject)
      },
    )
    const clothIds = new Map<string, string[]>()
    await each(
      rows,
      `SELECT m."projectId", m."clothPieceId" FROM "Movement" m JOIN "Project" p ON p."id" = m."projectId"
        WHERE m."kind" = 'use' AND m."clothPieceId" IS NOT NULL AND ${within} ORDER BY m."id"`,
      values,
      ([projectId, pieceId]) => clothIds.set(text(projectId), [...(clothIds.get(text(projectId)) ?? []), text(pieceId)]),
    )
    const pieces: PricedPiece[] = []
    if (clothIds.size > 0)
      await each(
        rows,
        `SELECT c."id", c."parentId", c."widthUm", c."heightUm", c."priceMinor", CASE WHEN c."goneAt" IS NULL THEN 0 ELSE 1 END
          FROM "ClothPiece" c`,
        [],
        ([id, parentId, widthUm, heightUm, priceMinor, isGone]) =>
          pieces.push({
            ...{ id: text(id), parentId: textOrNull(parentId), widthUm: number(widthUm), heightUm: number(heightUm) },
            ...{ priceMinor: numberOrNull(priceMinor), isGone: isTrue(isGone) },
          }),
      )
    return {
      threads: new Map([...threads].map(([id, used]) => [id, [...used.values()].filter(({ strandTenths }) => strandTenths > 0)])),
      clothIds,
      pieces,
    }
  })
}

async function each(rows: ReadRows, sql: string, values: Cell[], take: (row: Cell[]) => unknown): Promise<void> {
  for await (const some of rows(sql, values)) for (const row of some) take(row)
}
