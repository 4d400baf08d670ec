import Libsql from 'libsql'
import { figuresOf, type LineStatus, lineStatuses } from '#lib/coverage/line-status'
import type { ListNeeds } from '#lib/coverage/need-columns'
import type { Answers } from '#lib/db/answers/answers'
import { isOut } from '#lib/stock/batch'
import type { FreeStock } from '#lib/stock/free-stock'

export type SqlAnswer = {
  listId: string
  status: LineStatus
  threadCount: number
  readyCount: number
  elsewhereCount: number
  unknownCount: number
  lotsCount: number
  shortCount: number
  shortPutUps: number
  lotPutUps: number
}

type SqlRow = Omit<SqlAnswer, 'listId' | 'status'> & { listNo: number; status: number }

/** As `rankStatus` has it. */
const rank = `CASE
    WHEN s.bestLot >= n.need THEN 7
    WHEN NOT s.lotsMatter AND s.free >= n.need THEN 6 + (n.need <= s.putUp)
    WHEN s.isSomeHeld THEN 4
    WHEN iif(s.lotsMatter, s.bestOwnedLot, s.owned) >= n.need THEN 3
    WHEN s.lotsMatter AND s.owned >= n.need THEN 2
    WHEN s.free > 0 THEN 1
    ELSE 0 END`
/** As `putUpsToBuy` has it, for a need of rank 0 to 2. */
const putUps = '(need - iif(NOT lotsMatter, free, iif(rank = 2, 0, bestMarkedLot)) + putUp - 1) / putUp'

/**
 * Seven counts of at most 63 in one sum (shifted by six bits a rank), and both counts of put-ups in another: of four ways tried this was the fastest, since the
 * planner copies the rank's expression into every aggregate that uses it.
 */
const answerSql = (where: string, { need, list, thread } = { need: 'Need', list: 'listNo', thread: 'threadNo' }) => `
  SELECT ${list}, status, threadCount,
    (packed >> 36 & 63) + (packed >> 42 & 63) AS readyCount, packed >> 18 & 63 AS elsewhereCount, packed >> 24 & 63 AS unknownCount,
    packed >> 12 & 63 AS lotsCount, (packed & 63) + (packed >> 6 & 63) AS shortCount,
    bought & 0xffffffff AS shortPutUps, bought >> 32 AS lotPutUps
  FROM (
    SELECT ${list}, min(rank) AS status, count(*) AS threadCount, sum(1 << 6 * rank) AS packed,
      sum(CASE WHEN rank > 2 THEN 0 WHEN rank = 2 THEN ${putUps} << 32 ELSE ${putUps} END) AS bought
    FROM (
      SELECT n.${list}, n.need, s.*, ${rank} AS rank
      FROM ${need} n CROSS JOIN Stock s ON s.${thread} = n.${thread} ${where}
    )
    GROUP BY ${list}
  )`

/**
 * Stock figures from batches and promises as they are stored: owned − out − promised by batch, summed by lot (a batch without a lot mark
 * is a lot of its own), then by thread.
 */
const stockSql = `
  SELECT t.threadId, t.lotsMatter, t.putUp, coalesce(f.free, 0) AS free, coalesce(f.bestLot, 0) AS bestLot,
    coalesce(f.bestMarkedLot, 0) AS bestMarkedLot, coalesce(f.owned, 0) AS owned, coalesce(f.bestOwnedLot, 0) AS bestOwnedLot,
    coalesce(f.isSomeHeld, 0) AS isSomeHeld
  FROM Thread t LEFT JOIN (
    SELECT threadId, sum(free) AS free, max(free) AS bestLot, max(iif(isMarked, free, 0)) AS bestMarkedLot, sum(owned) AS owned,
      max(owned) AS bestOwnedLot, max(isSomeHeld) AS isSomeHeld
    FROM (
      SELECT threadId, lot IS NOT NULL AS isMarked, sum(owned) AS owned, sum(free) AS free, max(isSome AND NOT isOut) AS isSomeHeld
      FROM (
        SELECT b.batchId, b.threadId, b.lot, b.isSome, b.isOut, b.wholePutUps * b.putUp + b.part AS owned,
          iif(b.isOut, 0, max(0, b.wholePutUps * b.putUp + b.part - coalesce(p.promised, 0))) AS free
        FROM Batch b LEFT JOIN (SELECT batchId, sum(strandTenths) AS promised FROM Promised GROUP BY batchId) p USING (batchId)
      )
      GROUP BY threadId, coalesce(lot, batchId)
    )
    GROUP BY threadId
  ) f USING (threadId)`

/** Every design's best list, as `compareAnswers` has it, from batches and promises: one statement. Keys are texts, as the project's own are. */
const designsSql = `
  WITH Stock AS MATERIALIZED (${stockSql})
  SELECT designId, listId, status, threadCount, readyCount, elsewhereCount, unknownCount, lotsCount, shortCount, shortPutUps, lotPutUps
  FROM (
    SELECT l.designId, a.*, row_number() OVER (
      PARTITION BY l.designId
      ORDER BY a.readyCount = a.threadCount DESC, a.shortPutUps + a.lotPutUps, a.threadCount - a.readyCount, a.status DESC, a.listId
    ) AS place
    FROM (${answerSql('', { need: 'TextNeed', list: 'listId', thread: 'threadId' })}) a JOIN List l USING (listId)
  )
  WHERE place = 1`

const names = ['status', 'threadCount', 'readyCount', 'elsewhereCount', 'unknownCount', 'lotsCount', 'shortCount'] as const
const sumsOf = (sql: string) => `SELECT count(*), ${names.map((name) => `sum(${name})`).join(', ')}, sum(shortPutUps),
  sum(lotPutUps) FROM (${sql})`

/**
 * The same coverage by one SQL statement, in SQLite in memory. Needs are worked out into a table, clustered by list; indexes for every
 * join, ANALYZE run, statements prepared. For `answerAll` and its kin stock figures are worked out too, and keys are whole numbers.
 */
export class CoverageInSql {
  readonly #listIds: string[] = []
  readonly #numbers: Map<string, number>
  readonly #connection = new Libsql(':memory:')
  readonly #all
  readonly #rows
  readonly #sums
  readonly #designs
  readonly #designRows
  readonly #usersOfThread
  readonly #setStock

  /** @throws {RangeError} if a list has more threads than a packed count holds */
  constructor(answers: Answers, lists: readonly ListNeeds[], ownerIds: readonly string[]) {
    const { lineOfThread, lines } = answers.world
    this.#numbers = new Map([...lineOfThread.keys()].map((threadId, number) => [threadId, number]))
    this.#connection.exec(`
      CREATE TABLE Need (listNo INTEGER, threadNo INTEGER, need INTEGER NOT NULL, PRIMARY KEY (listNo, threadNo)) WITHOUT ROWID;
      CREATE TABLE Stock (threadNo INTEGER PRIMARY KEY, free INTEGER NOT NULL, bestLot INTEGER NOT NULL,
        bestMarkedLot INTEGER NOT NULL, owned INTEGER NOT NULL, bestOwnedLot INTEGER NOT NULL, isSomeHeld INTEGER NOT NULL,
        lotsMatter INTEGER NOT NULL, putUp INTEGER NOT NULL);
      CREATE TABLE Thread (threadId TEXT PRIMARY KEY, lotsMatter INTEGER NOT NULL, putUp INTEGER NOT NULL) WITHOUT ROWID;
      CREATE TABLE Batch (batchId TEXT PRIMARY KEY, threadId TEXT NOT NULL, lot TEXT, putUp INTEGER NOT NULL,
        wholePutUps INTEGER NOT NULL, part INTEGER NOT NULL, isSome INTEGER NOT NULL, isOut INTEGER NOT NULL) WITHOUT ROWID;
      CREATE TABLE Promised (batchId TEXT NOT NULL, strandTenths INTEGER NOT NULL);
      CREATE TABLE List (listId TEXT PRIMARY KEY, designId TEXT NOT NULL) WITHOUT ROWID;
      CREATE TABLE TextNeed (listId TEXT, threadId TEXT, need INTEGER NOT NULL, PRIMARY KEY (listId, threadId)) WITHOUT ROWID;
      BEGIN`)
    const addStock = this.#connection.prepare('INSERT INTO Stock VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)')
    const addThread = this.#connection.prepare('INSERT INTO Thread VALUES (?, ?, ?)')
    const addBatch = this.#connection.prepare('INSERT INTO Batch VALUES (?, ?, ?, ?, ?, ?, ?, ?)')
    const addPromise = this.#connection.prepare('INSERT INTO Promised VALUES (?, ?)')
    const addList = this.#connection.prepare('INSERT INTO List VALUES (?, ?)')
    for (const [threadId, lineId] of lineOfThread) {
      const line = lines.get(lineId)
      if (!line) throw new RangeError(`CoverageInSql: no line ${lineId}`)
      const figures = figureCells(answers.freeOf(threadId, ownerIds))
      addStock.run(this.#numberOf(threadId), ...figures, Number(line.lotsMatter), line.putUpStrandTenths)
      addThread.run(threadId, Number(line.lotsMatter), line.putUpStrandTenths)
      const promises = answers.world.stock.promises.get(threadId) ?? []
      for (const batch of answers.batchesOf(threadId, ownerIds)) {
        const { putUpStrandTenths, wholePutUps, partStrandTenths, partCertainty } = batch
        const [isSome, out] = [Number(partCertainty === 'some'), Number(isOut(batch))]
        addBatch.run(batch.id, threadId, batch.lot, putUpStrandTenths, wholePutUps, partStrandTenths, isSome, out)
        for (const { batchId, strandTenths } of promises) if (batchId === batch.id) addPromise.run(batchId, strandTenths)
      }
    }
    const addNeed = this.#connection.prepare(`INSERT INTO Need VALUES (?, ?, ?)
      ON CONFLICT DO UPDATE SET need = need + excluded.need`)
    const addTextNeed = this.#connection.prepare(`INSERT INTO TextNeed VALUES (?, ?, ?)
      ON CONFLICT DO UPDATE SET need = need + excluded.need`)
    for (const { listId, designId, needs } of lists) {
      if (needs.length > 63) throw new RangeError(`CoverageInSql: list ${listId} has ${needs.length} threads`)
      for (const need of needs) {
        addNeed.run(this.#listIds.length, this.#numberOf(need.threadId), need.strandTenths)
        addTextNeed.run(listId, need.threadId, need.strandTenths)
      }
      addList.run(listId, designId)
      this.#listIds.push(listId)
    }
    this.#connection.exec(`COMMIT; CREATE INDEX ListsOfThread ON Need (threadNo); CREATE INDEX PromisesOfBatch ON Promised (batchId);
      CREATE INDEX BatchesOfThread ON Batch (threadId, lot); CREATE INDEX ListsOfDesign ON List (designId); ANALYZE`)
    this.#all = this.#connection.prepare(answerSql(''))
    this.#rows = this.#connection.prepare(answerSql('')).raw()
    this.#sums = this.#connection.prepare(sumsOf(answerSql('')))
    this.#designs = this.#connection.prepare(designsSql)
    this.#designRows = this.#connection.prepare(designsSql).raw()
    this.#usersOfThread = this.#connection
      .prepare(answerSql('WHERE n.listNo IN (SELECT listNo FROM Need WHERE threadNo = ?)'))
      .raw()
    this.#setStock =
      this.#connection.prepare(`UPDATE Stock SET free = ?, bestLot = ?, bestMarkedLot = ?, owned = ?, bestOwnedLot = ?,
      isSomeHeld = ? WHERE threadNo = ?`)
  }

  /** The answer of every list that needs a thread. */
  answers(): SqlAnswer[] {
    return (this.#all.all() as SqlRow[]).map((row) => this.#answerOf(row))
  }

  /** The answer of every design's best list, from batches and promises. */
  designAnswers(): SqlAnswer[] {
    return (this.#designs.all() as (Omit<SqlRow, 'listNo'> & { listId: string })[]).map(({ status, ...row }) => ({
      ...row,
      status: lineStatuses[status] as LineStatus,
    }))
  }

  /** Answer every design from batches and promises, and read the answers out. */
  answerDesigns(): void {
    this.#designRows.all()
  }

  /** Answer every list and read the answers out, as arrays, which is the driver's quickest way. */
  answerAll(): void {
    this.#rows.all()
  }

  /** Answer every list, and read out only the sums over all. */
  sumAll(): void {
    this.#sums.get()
  }

  /** Take over one thread's stock and answer the lists that use it. */
  answerUsersOf(free: FreeStock): void {
    const threadNo = this.#numberOf(free.threadId)
    this.#setStock.run(...figureCells(free), threadNo)
    this.#usersOfThread.all(threadNo)
  }

  close(): void {
    this.#connection.close()
  }

  #answerOf({ listNo, status, ...counts }: SqlRow): SqlAnswer {
    return { ...counts, listId: this.#listIds[listNo] as string, status: lineStatuses[status] as LineStatus }
  }

  #numberOf(threadId: string): number {
    const number = this.#numbers.get(threadId)
    if (number === undefined) throw new RangeError(`CoverageInSql: no thread ${threadId}`)
    return number
  }
}

function figureCells(free: FreeStock): number[] {
  const figures = figuresOf(free)
  return [
    figures.freeStrandTenths,
    figures.bestLotStrandTenths,
    figures.bestMarkedLotStrandTenths,
    figures.ownedStrandTenths,
    figures.bestOwnedLotStrandTenths,
    Number(figures.isSomeHeld),
  ]
}
