import Libsql from 'libsql'
import type { NeedIndex } from '#lib/coverage/need-index'
import { isOut } from '#lib/stock/batch'
import { type ArchiveWorld, ownerIds } from './archive-world'
import { timeMs } from './timing'

/** Put-ups to buy, threads not ready and the status’s rank of a list; one with every thread `enough` has no row. */
type AnswerRow = [listNo: number, missing: number, putUps: number, rank: number]

/** No need is so large. */
const endless = 2 ** 40

/** How far stock goes, by thread: the same boundaries as the engine's. `figures` has what is free and owned by thread and lot. */
const boundariesOf = (figures: string) => `
  SELECT threadNo, putUp, enough, ready, isSomeHeld, free > 0 AS isSomeFree, iif(lotsMatter, bestMarkedLot, free) AS held, elsewhere,
    iif(lotsMatter, max(elsewhere, owned), elsewhere) AS lots
  FROM (
    SELECT *, iif(lotsMatter, bestLot, max(bestLot, min(free, putUp))) AS enough, iif(lotsMatter, bestLot, free) AS ready,
      iif(isSomeHeld, ${endless}, max(iif(lotsMatter, bestLot, free), iif(lotsMatter, bestOwnedLot, owned))) AS elsewhere
    FROM (${figures})
  )`

/** Owned − out − promised by batch, summed by lot (a batch without a lot mark is a lot of its own), then by thread. */
const figuresSql = (ownerNos: readonly number[]) => `
  SELECT t.threadNo, t.lotsMatter, t.putUp, coalesce(f.free, 0) AS free, coalesce(f.bestLot, 0) AS bestLot,
    coalesce(f.bestMarkedLot, 0) AS bestMarkedLot, coalesce(f.owned, 0) AS owned, coalesce(f.bestOwnedLot, 0) AS bestOwnedLot,
    coalesce(f.isSomeHeld, 0) AS isSomeHeld
  FROM Thread t LEFT JOIN (
    SELECT threadNo, sum(free) AS free, max(free) AS bestLot, max(iif(isMarked, free, 0)) AS bestMarkedLot, sum(owned) AS owned,
      max(owned) AS bestOwnedLot, max(isSomeHeld) AS isSomeHeld
    FROM (
      SELECT threadNo, lot IS NOT NULL AS isMarked, sum(owned) AS owned, sum(free) AS free, max(isSome AND NOT isOut) AS isSomeHeld
      FROM (
        SELECT b.batchNo, b.threadNo, b.lot, b.isSome, b.isOut, b.wholePutUps * b.putUp + b.part AS owned,
          iif(b.isOut, 0, max(0, b.wholePutUps * b.putUp + b.part - coalesce(p.promised, 0))) AS free
        FROM Batch b LEFT JOIN (SELECT batchNo, sum(strandTenths) AS promised FROM Promised GROUP BY batchNo) p USING (batchNo)
        WHERE b.ownerNo IN (${ownerNos.join(', ')})
      )
      GROUP BY threadNo, coalesce('lot ' || lot, batchNo)
    )
    GROUP BY threadNo
  ) f USING (threadNo)`

const rank = `CASE WHEN n.need <= s.enough THEN 7 WHEN n.need <= s.ready THEN 6 WHEN n.need <= s.elsewhere THEN 3 + s.isSomeHeld
  WHEN n.need <= s.lots THEN 2 ELSE s.isSomeFree END`
const putUps = `CASE WHEN n.need <= s.elsewhere THEN 0 WHEN n.need <= s.lots THEN (n.need + s.putUp - 1) / s.putUp
  ELSE (n.need - s.held + s.putUp - 1) / s.putUp END`
const counted = `sum(n.need > s.ready), sum(${putUps}), min(${rank})`
const fromList = (stock: string) => `Need n CROSS JOIN ${stock} s ON s.threadNo = n.threadNo`

/** Ways of writing it; `where` narrows it to some lists. */
const ways: Record<string, (stock: string, where: string) => string> = {
  'every need, list by list': (stock, where) =>
    `SELECT n.listNo, ${counted} FROM ${fromList(stock)} WHERE 1 = 1${where} GROUP BY n.listNo`,
  'only needs that are not enough, list by list': (stock, where) =>
    `SELECT n.listNo, ${counted} FROM ${fromList(stock)} WHERE n.need > s.enough${where} GROUP BY n.listNo`,
  'the same, put-ups by one division': (stock, where) =>
    `SELECT n.listNo, sum(n.need > s.ready),
      sum(iif(n.need > s.elsewhere, (n.need - iif(n.need <= s.lots, 0, s.held) + s.putUp - 1) / s.putUp, 0)), min(${rank})
    FROM ${fromList(stock)} WHERE n.need > s.enough${where} GROUP BY n.listNo`,
  'thread by thread, from what is enough on': (stock, where) =>
    `SELECT n.listNo, ${counted}
    FROM ${stock} s CROSS JOIN Need n INDEXED BY NeedsOfThread ON n.threadNo = s.threadNo AND n.need > s.enough
    WHERE 1 = 1${where} GROUP BY n.listNo`,
}

const rowsInInsert = 100

/**
 * The archive's coverage by one SQL statement, in SQLite in memory. Keys are whole numbers; needs are clustered by list, with an index
 * that covers them by thread too.
 */
export class ArchiveInSql {
  readonly #connection = new Libsql(':memory:')
  readonly #ready
  readonly #fromBatches
  readonly #sums
  readonly wayReady: string
  readonly wayFromBatches: string

  constructor(world: ArchiveWorld, index: NeedIndex, askedOwnerIds: readonly string[]) {
    this.#connection.exec(`
      CREATE TABLE Need (listNo INTEGER, threadNo INTEGER, need INTEGER NOT NULL, PRIMARY KEY (listNo, threadNo)) WITHOUT ROWID;
      CREATE TABLE Thread (threadNo INTEGER PRIMARY KEY, lotsMatter INTEGER NOT NULL, putUp INTEGER NOT NULL);
      CREATE TABLE Batch (batchNo INTEGER PRIMARY KEY, threadNo INTEGER NOT NULL, ownerNo INTEGER NOT NULL, lot TEXT,
        putUp INTEGER NOT NULL, wholePutUps INTEGER NOT NULL, part INTEGER NOT NULL, isSome INTEGER NOT NULL, isOut INTEGER NOT NULL);
      CREATE TABLE Promised (batchNo INTEGER NOT NULL, strandTenths INTEGER NOT NULL);
      CREATE TABLE Stock (threadNo INTEGER PRIMARY KEY, putUp INTEGER NOT NULL, enough INTEGER NOT NULL, ready INTEGER NOT NULL,
        isSomeHeld INTEGER NOT NULL, isSomeFree INTEGER NOT NULL, held INTEGER NOT NULL, elsewhere INTEGER NOT NULL,
        lots INTEGER NOT NULL);
      BEGIN`)
    this.#addNeeds(index)
    this.#addStock(world)
    const ownerNos = askedOwnerIds.map((id) => ownerIds.indexOf(id as (typeof ownerIds)[number]))
    const boundaries = boundariesOf(figuresSql(ownerNos))
    this.#connection.exec(`INSERT INTO Stock ${boundaries}; COMMIT;
      CREATE INDEX NeedsOfThread ON Need (threadNo, need, listNo); CREATE INDEX PromisesOfBatch ON Promised (batchNo, strandTenths);
      CREATE INDEX BatchesOfThread ON Batch (threadNo, lot); ANALYZE`)
    const fromBatches = (way: string) => `WITH Boundary AS MATERIALIZED (${boundaries}) ${way}`
    const some = ` AND n.listNo < ${Math.ceil(index.listCount / 10)}`
    this.wayReady = this.#fastest((way) => way('Stock', some))
    this.wayFromBatches = this.#fastest((way) => fromBatches(way('Boundary', some)))
    const ready = (ways[this.wayReady] as (typeof ways)[string])('Stock', '')
    this.#ready = this.#connection.prepare(ready).raw()
    this.#sums = this.#connection.prepare(`WITH Answer (listNo, missing, putUps, worst) AS (${ready})
      SELECT count(*), sum(missing), sum(putUps), sum(worst) FROM Answer`)
    const way = ways[this.wayFromBatches] as (typeof ways)[string]
    this.#fromBatches = this.#connection.prepare(fromBatches(way('Boundary', ''))).raw()
  }

  /** Every list's answer, from boundaries ready in a table. */
  answersReady(): AnswerRow[] {
    return this.#ready.all() as AnswerRow[]
  }

  /** The same, of which only the sums over all lists are handed out. */
  sumsReady(): void {
    this.#sums.get()
  }

  /** Every list's answer, from batches and promises. */
  answersFromBatches(): AnswerRow[] {
    return this.#fromBatches.all() as AnswerRow[]
  }

  close(): void {
    this.#connection.close()
  }

  #addNeeds(index: NeedIndex): void {
    const { listIds, offsets, needThread, need } = index.packed
    const add = this.#connection.prepare('INSERT INTO Need VALUES (?, ?, ?)')
    const addMany = this.#connection.prepare(`INSERT INTO Need VALUES ${Array(rowsInInsert).fill('(?, ?, ?)').join(', ')}`)
    const cells: number[] = []
    for (let row = 0; row < listIds.length; row++) {
      const places: number[] = []
      for (let at = offsets[row] as number; at < (offsets[row + 1] as number); at++) places.push(at)
      places.sort((a, b) => (needThread[a] as number) - (needThread[b] as number))
      for (const at of places) cells.push(row, needThread[at] as number, need[at] as number)
      while (cells.length >= rowsInInsert * 3) addMany.run(...cells.splice(0, rowsInInsert * 3))
    }
    while (cells.length > 0) add.run(...cells.splice(0, 3))
  }

  #addStock({ threads, batches, promises }: ArchiveWorld): void {
    const addThread = this.#connection.prepare('INSERT INTO Thread VALUES (?, ?, ?)')
    const addBatch = this.#connection.prepare('INSERT INTO Batch VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)')
    const addPromise = this.#connection.prepare('INSERT INTO Promised VALUES (?, ?)')
    let batchNo = 0
    for (const [threadNo, { threadId, line }] of threads.entries()) {
      addThread.run(threadNo, Number(line.lotsMatter), line.putUpStrandTenths)
      for (const batch of batches.get(threadId) ?? []) {
        const { lot, putUpStrandTenths, wholePutUps, partStrandTenths, partCertainty } = batch
        const ownerNo = ownerIds.indexOf(batch.ownerId as (typeof ownerIds)[number])
        const [isSome, out] = [Number(partCertainty === 'some'), Number(isOut(batch))]
        addBatch.run(++batchNo, threadNo, ownerNo, lot, putUpStrandTenths, wholePutUps, partStrandTenths, isSome, out)
        for (const { batchId, strandTenths } of promises.get(threadId) ?? []) {
          if (batchId === batch.id) addPromise.run(batchNo, strandTenths)
        }
      }
    }
  }

  /** Which way answers a tenth of the lists in the least time, of three tries each. */
  #fastest(sqlOf: (way: (typeof ways)[string]) => string): string {
    const times = Object.entries(ways).map(([name, way]) => {
      const statement = this.#connection.prepare(sqlOf(way)).raw()
      return { name, ms: Math.min(...[1, 2, 3].map(() => timeMs(() => statement.all()))) }
    })
    return (times.sort((a, b) => a.ms - b.ms)[0] as (typeof times)[number]).name
  }
}
