import 'server-only'
import { familyNamed } from '#lib/colour/family'
import type { LabCertainty } from '#lib/colour/lab'
import type { Batch, PartCertainty, StockPromise } from '#lib/stock/batch'
import type { Working } from '#lib/thread/stitches'
import type { Dyeing, Thread, ThreadLine } from '#lib/thread/thread'
import { among, isTrue, labOfCells, number, text, textOrNull } from '../cells'
import { each, type ReadRows } from '../read-snapshot'

export async function readLines(rows: ReadRows): Promise<Map<string, ThreadLine>> {
  const lines = new Map<string, ThreadLine>()
  const sql = `SELECT l."id", l."makerId", m."name", l."name", l."fibre", l."strands", l."putUpStrandTenths", l."putUpWord", l."dyeing",
      l."lotsMatter", l."working"
    FROM "ThreadLine" l JOIN "Maker" m ON m."id" = l."makerId"`
  for await (const row of each(rows, sql)) {
    const id = text(row[0])
    lines.set(id, {
      id,
      makerId: text(row[1]),
      makerName: text(row[2]),
      name: text(row[3]),
      fibre: textOrNull(row[4]),
      strands: number(row[5]),
      putUpStrandTenths: number(row[6]),
      putUpWord: text(row[7]),
      dyeing: text(row[8]) as Dyeing,
      lotsMatter: isTrue(row[9]),
      working: text(row[10]) as Working,
    })
  }
  return lines
}

/** Threads by id; `ids` null reads them all, removed ones left out. */
export async function readThreads(rows: ReadRows, ids: readonly string[] | null): Promise<Map<string, Thread>> {
  const threads = new Map<string, Thread>()
  const scope = among('"id"', ids)
  const sql = `SELECT "id", "lineId", "code", "name", "labL", "labA", "labB", "labCertainty", "family", "isLeaving"
    FROM "Thread" WHERE "goneAt" IS NULL${scope.sql}`
  for await (const row of each(rows, sql, scope.values)) {
    const id = text(row[0])
    const lab = labOfCells(row[4], row[5], row[6])
    threads.set(id, {
      id,
      lineId: text(row[1]),
      code: text(row[2]),
      name: textOrNull(row[3]),
      lab,
      labCertainty: textOrNull(row[7]) as LabCertainty | null,
      family: familyNamed(textOrNull(row[8])),
      isLeaving: isTrue(row[9]),
    })
  }
  return threads
}

/** The line of every thread, removed ones too: a key may still name them. */
export async function readLineOfThread(rows: ReadRows): Promise<Map<string, string>> {
  const lineOf = new Map<string, string>()
  for await (const [id, lineId] of each(rows, 'SELECT "id", "lineId" FROM "Thread"')) lineOf.set(text(id), text(lineId))
  return lineOf
}

/** Accepted stand-ins by thread, in order of their ids. */
export async function readStandIns(rows: ReadRows): Promise<Map<string, string[]>> {
  const standIns = new Map<string, string[]>()
  const sql = 'SELECT "threadId", "standInThreadId" FROM "StandIn" ORDER BY "threadId", "standInThreadId"'
  for await (const [threadId, standInThreadId] of each(rows, sql)) {
    standIns.set(text(threadId), [...(standIns.get(text(threadId)) ?? []), text(standInThreadId)])
  }
  return standIns
}

export type StockRows = { batches: Map<string, Batch[]>; promises: Map<string, StockPromise[]> }

/** Batches and the promises on them, both by thread; `threadIds` null reads all. */
export async function readStock(rows: ReadRows, threadIds: readonly string[] | null): Promise<StockRows> {
  const stock: StockRows = { batches: new Map(), promises: new Map() }
  const push = <T>(map: Map<string, T[]>, key: string, value: T) => {
    const known = map.get(key)
    if (known) known.push(value)
    else map.set(key, [value])
  }
  const scope = among('"threadId"', threadIds)
  const batchSql = `SELECT "id", "threadId", "ownerId", "lot", "putUpStrandTenths", "wholePutUps", "partStrandTenths", "partCertainty",
      "homePlaceId", "currentPlaceId", "putUpWord"
    FROM "Batch" WHERE "goneAt" IS NULL${scope.sql}`
  for await (const row of each(rows, batchSql, scope.values)) {
    push(stock.batches, text(row[1]), {
      id: text(row[0]),
      threadId: text(row[1]),
      ownerId: text(row[2]),
      lot: textOrNull(row[3]),
      putUpWord: textOrNull(row[10]),
      putUpStrandTenths: number(row[4]),
      wholePutUps: number(row[5]),
      partStrandTenths: number(row[6]),
      partCertainty: text(row[7]) as PartCertainty,
      homePlaceId: textOrNull(row[8]),
      currentPlaceId: textOrNull(row[9]),
    })
  }
  const promiseScope = among('b."threadId"', threadIds)
  const promiseSql = `SELECT p."id", p."batchId", p."projectId", p."strandTenths", b."threadId"
    FROM "StockPromise" p JOIN "Batch" b ON b."id" = p."batchId" WHERE b."goneAt" IS NULL${promiseScope.sql}`
  for await (const [id, batchId, projectId, strandTenths, threadId] of each(rows, promiseSql, promiseScope.values)) {
    push(stock.promises, text(threadId), {
      id: text(id),
      batchId: text(batchId),
      projectId: text(projectId),
      strandTenths: number(strandTenths),
    })
  }
  return stock
}
