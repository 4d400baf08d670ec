import Libsql from 'libsql'
import { figuresOf, type LineStatus, lineStatuses } from '#lib/coverage/line-status'
import type { Answers } from '#lib/db/answers/answers'
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
const answerSql = (where: string) => `
  SELECT listNo, status, threadCount,
    (packed >> 36 & 63) + (packed >> 42 & 63) AS readyCount, packed >> 18 & 63 AS elsewhereCount, packed >> 24 & 63 AS unknownCount,
    packed >> 12 & 63 AS lotsCount, (packed & 63) + (packed >> 6 & 63) AS shortCount,
    bought & 0xffffffff AS shortPutUps, bought >> 32 AS lotPutUps
  FROM (
    SELECT listNo, min(rank) AS status, count(*) AS threadCount, sum(1 << 6 * rank) AS packed,
      sum(CASE WHEN rank > 2 THEN 0 WHEN rank = 2 THEN ${putUps} << 32 ELSE ${putUps} END) AS bought
    FROM (SELECT n.listNo, n.need, s.*, ${rank} AS rank FROM Need n CROSS JOIN Stock s ON s.threadNo = n.threadNo ${where})
    GROUP BY listNo)`

const names = ['status', 'threadCount', 'readyCount', 'elsewhereCount', 'unknownCount', 'lotsCount', 'shortCount'] as const
const sumsOf = (sql: string) => `SELECT count(*), ${names.map((name) => `sum(${name})`).join(', ')}, sum(shortPutUps),
  sum(lotPutUps) FROM (${sql})`

/**
 * The same coverage by one SQL statement, in SQLite in memory. The peer is given all it could wish: needs and stock figures already
 * worked out into tables, whole numbers for keys, needs clustered by list and indexed by thread, ANALYZE run, the statement prepared.
 */
export class CoverageInSql {
  readonly #listIds: string[] = []
  readonly #numbers: Map<string, number>
  readonly #connection = new Libsql(':memory:')
  readonly #all
  readonly #rows
  readonly #sums
  readonly #usersOfThread
  readonly #setStock

  /** @throws {RangeError} if a list has more threads than a packed count holds */
  constructor(answers: Answers, ownerIds: readonly string[]) {
    const { lists, lineOfThread, lines } = answers.world
    this.#numbers = new Map([...lineOfThread.keys()].map((threadId, number) => [threadId, number]))
    this.#connection.exec(`
      CREATE TABLE Need (listNo INTEGER, threadNo INTEGER, need INTEGER NOT NULL, PRIMARY KEY (listNo, threadNo)) WITHOUT ROWID;
      CREATE TABLE Stock (threadNo INTEGER PRIMARY KEY, free INTEGER NOT NULL, bestLot INTEGER NOT NULL,
        bestMarkedLot INTEGER NOT NULL, owned INTEGER NOT NULL, bestOwnedLot INTEGER NOT NULL, isSomeHeld INTEGER NOT NULL,
        lotsMatter INTEGER NOT NULL, putUp INTEGER NOT NULL);
      BEGIN`)
    const addStock = this.#connection.prepare('INSERT INTO Stock VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)')
    for (const [threadId, lineId] of lineOfThread) {
      const line = lines.get(lineId)
      if (!line) throw new RangeError(`CoverageInSql: no line ${lineId}`)
      const figures = figureCells(answers.freeOf(threadId, ownerIds))
      addStock.run(this.#numberOf(threadId), ...figures, Number(line.lotsMatter), line.putUpStrandTenths)
    }
    const addNeed = this.#connection.prepare(`INSERT INTO Need VALUES (?, ?, ?)
      ON CONFLICT DO UPDATE SET need = need + excluded.need`)
    for (const { listId, needs } of lists.values()) {
      if (needs.length > 63) throw new RangeError(`CoverageInSql: list ${listId} has ${needs.length} threads`)
      for (const need of needs) addNeed.run(this.#listIds.length, this.#numberOf(need.threadId), need.strandTenths)
      this.#listIds.push(listId)
    }
    this.#connection.exec('COMMIT; CREATE INDEX ListsOfThread ON Need (threadNo); ANALYZE')
    this.#all = this.#connection.prepare(answerSql(''))
    this.#rows = this.#connection.prepare(answerSql('')).raw()
    this.#sums = this.#connection.prepare(sumsOf(answerSql('')))
    this.#usersOfThread = this.#connection
      .prepare(answerSql('WHERE n.listNo IN (SELECT listNo FROM Need WHERE threadNo = ?)'))
      .raw()
    this.#setStock =
      this.#connection.prepare(`UPDATE Stock SET free = ?, bestLot = ?, bestMarkedLot = ?, owned = ?, bestOwnedLot = ?,
      isSomeHeld = ? WHERE threadNo = ?`)
  }

  /** The answer of every list that needs a thread. */
  answers(): SqlAnswer[] {
    return (this.#all.all() as (Omit<SqlAnswer, 'listId' | 'status'> & { listNo: number; status: number })[]).map(
      ({ listNo, status, ...counts }) => ({
        ...counts,
        listId: this.#listIds[listNo] as string,
        status: lineStatuses[status] as LineStatus,
      }),
    )
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
