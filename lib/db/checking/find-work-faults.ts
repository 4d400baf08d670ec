import 'server-only'
import type { Fault } from '#lib/checking/fault'
import { isDay } from '#lib/quantity/day'
import { number, text, textOrNull } from '../cells'
import { each, type ReadRows } from '../read-snapshot'
import { concerned, nameColumns } from './thing-names'

const threadName = `(SELECT mk."name" || ' ' || th."code" FROM "Thread" th JOIN "ThreadLine" li ON li."id" = th."lineId"
  JOIN "Maker" mk ON mk."id" = li."makerId" WHERE th."id" = k."threadId")`

/** Bags of a batch of kits with two cuts of one thread, and cuts for bags that are none. */
export async function* findKitFaults(rows: ReadRows): AsyncGenerator<Fault, void, void> {
  const sql = `SELECT thing."id" AS "id", k."threadId" AS "threadId", k."fromBag" AS "fromBag", k."toBag" AS "toBag",
      thing."quantity" AS "quantity", ${threadName} AS "thread", ${nameColumns('project').join(', ')}
    FROM "KitLot" k JOIN "Project" thing ON thing."id" = k."projectId"
    ORDER BY thing."id", k."threadId", k."fromBag", k."toBag", k."id"`
  // In their order, so that what reaches furthest so far tells whether the next begins inside it.
  let same = ''
  let reached = 0
  for await (const row of each(rows, sql)) {
    const [projectId, threadId, fromBag, toBag, quantity] = [
      text(row[0]),
      text(row[1]),
      number(row[2]),
      number(row[3]),
      number(row[4]),
    ]
    const about = concerned('project', projectId, row[6], row[7])
    const thread = textOrNull(row[5]) ?? threadId
    if (same !== `${projectId} ${threadId}`) reached = 0
    same = `${projectId} ${threadId}`
    if (fromBag <= reached) yield { kind: 'cut-twice', id: `cut-twice:${same} ${fromBag}`, about, thread, bag: fromBag }
    if (toBag > quantity) yield { kind: 'cut-beyond', id: `cut-beyond:${same} ${toBag}`, about, thread, bag: toBag, quantity }
    reached = Math.max(reached, toBag)
  }
}

/** Totals of work below nothing, and lines of a log on days the calendar does not have. */
export async function* findWorkFaults(rows: ReadRows): AsyncGenerator<Fault, void, void> {
  const name = nameColumns('project').join(', ')
  const totalsSql = `SELECT thing."id" AS "id", thing."stitchesDone" AS "stitchesDone", thing."hoursTenths" AS "hoursTenths", ${name}
    FROM "Project" thing WHERE thing."stitchesDone" < 0 OR thing."hoursTenths" < 0`
  for await (const row of each(rows, totalsSql))
    yield {
      ...{ kind: 'work-below-nothing', id: `work-below-nothing:${text(row[0])}` },
      ...{ about: concerned('project', row[0], row[3], row[4]), stitchesDone: number(row[1]), hoursTenths: number(row[2]) },
    }
  const daysSql = `SELECT w."id" AS "id", w."day" AS "day", ${name}
    FROM "WorkEntry" w JOIN "Project" thing ON thing."id" = w."projectId" WHERE w."goneAt" IS NULL`
  for await (const [id, day, called, link] of each(rows, daysSql))
    if (!isDay(text(day)))
      yield { kind: 'work-no-day', id: `work-no-day:${text(id)}`, about: concerned('work', id, called, link), day: text(day) }
}
