import 'server-only'
import type { Fault } from '#lib/checking/fault'
import { openStatuses } from '#lib/project/life-cycle'
import type { PartCertainty } from '#lib/stock/batch'
import { findBrokenPromises } from '#lib/stock/broken-promises'
import { isTrue, number, text, textOrNull } from '../cells'
import { each, type ReadRows } from '../read-snapshot'
import { suspectsSql } from '../stock/broken-promises'
import { concerned, nameColumns } from './thing-names'

/** What a project is called, `j` being its row. */
const projectName = `(SELECT de."title" FROM "Design" de WHERE de."id" = j."designId") || coalesce(' for ' || j."forWhom", '')`

/** Promises to projects that are over, and stock of which more is promised than it can keep. */
export async function* findPromiseFaults(rows: ReadRows, only: string | null): AsyncGenerator<Fault, void, void> {
  const scope = only === null ? { sql: '', values: [] } : { sql: ' AND thing."id" = ?', values: [only] }
  const closedSql = `SELECT p."id" AS "id", thing."id" AS "batchId", ${projectName} AS "project", j."status" AS "status",
      j."goneAt" IS NOT NULL AS "isGone", ${nameColumns('batch').join(', ')}
    FROM "StockPromise" p JOIN "Batch" thing ON thing."id" = p."batchId" JOIN "Project" j ON j."id" = p."projectId"
    WHERE (j."goneAt" IS NOT NULL OR j."status" NOT IN (${openStatuses.map(() => '?').join(', ')}))${scope.sql} ORDER BY p."id"`
  for await (const row of each(rows, closedSql, [...openStatuses, ...scope.values]))
    yield {
      kind: 'promise-closed',
      id: `promise-closed:${text(row[0])}`,
      about: concerned('batch', row[1], row[5], row[6]),
      promiseId: text(row[0]),
      project: textOrNull(row[2]) ?? text(row[0]),
      status: text(row[3]),
      isGone: isTrue(row[4]),
    }
  yield* findBeyond(rows, scope)
}

async function* findBeyond(rows: ReadRows, scope: { sql: string; values: string[] }): AsyncGenerator<Fault, void, void> {
  const sql = `SELECT thing."id" AS "id", p."id" AS "promiseId", p."projectId" AS "projectId", p."strandTenths" AS "strandTenths",
      j."ownerId" AS "projectOwnerId", j."placeId" AS "placeId", ${projectName} AS "project", thing."goneAt" IS NOT NULL AS "isGone",
      thing."ownerId" AS "ownerId", thing."currentPlaceId" AS "currentPlaceId", thing."putUpStrandTenths" AS "putUpStrandTenths",
      thing."wholePutUps" AS "wholePutUps", thing."partStrandTenths" AS "partStrandTenths", thing."partCertainty" AS "partCertainty",
      ${nameColumns('batch').join(', ')}
    FROM "Batch" thing JOIN "StockPromise" p ON p."batchId" = thing."id" JOIN "Project" j ON j."id" = p."projectId"
    WHERE j."goneAt" IS NULL AND thing."id" IN (${suspectsSql})${scope.sql} ORDER BY thing."id", p."id"`
  let same: Row[] = []
  for await (const row of each(rows, sql, scope.values)) {
    if (same[0] && same[0][0] !== row[0]) {
      yield* beyondOf(same)
      same = []
    }
    same.push(row)
  }
  yield* beyondOf(same)
}

type Row = (string | number | null)[]

/** What the promises on one batch come to. */
function* beyondOf(same: readonly Row[]): Generator<Fault, void, void> {
  const [first] = same
  if (!first) return
  const id = text(first[0])
  const batch = {
    ...{ id, ownerId: text(first[8]), currentPlaceId: textOrNull(first[9]), putUpStrandTenths: number(first[10]) },
    ...{ wholePutUps: number(first[11]), partStrandTenths: number(first[12]), partCertainty: text(first[13]) as PartCertainty },
  }
  const nameOf = new Map(same.map((row) => [text(row[2]), textOrNull(row[6]) ?? text(row[2])]))
  const broken = findBrokenPromises({
    batches: isTrue(first[7]) ? [] : [batch],
    promises: same.map((row) => ({
      ...{ id: text(row[1]), batchId: id, projectId: text(row[2]), strandTenths: number(row[3]) },
    })),
    projects: same.map((row) => ({ id: text(row[2]), ownerId: text(row[4]), placeId: textOrNull(row[5]) })),
  })
  const [worst] = broken
  if (!worst) return
  const projects = [...new Set(broken.map(({ projectId }) => nameOf.get(projectId) ?? projectId))]
  yield {
    ...{ kind: 'promise-beyond', id: `promise-beyond:${id}`, about: concerned('batch', id, first[14], first[15]) },
    ...{ projects, why: worst.why },
    promises: broken.map(({ promiseId, supportedStrandTenths }) => ({ promiseId, keepsStrandTenths: supportedStrandTenths })),
  }
}
