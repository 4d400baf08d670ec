import 'server-only'
import { type Fault, isBelowNothing, isNoAmount, isSameAmount } from '#lib/checking/fault'
import { isTrue, number, text, textOrNull } from '../cells'
import { each, type ReadRows } from '../read-snapshot'
import { stockNouns, stockSumsSql, tableOf } from './stock-sums'
import { concerned, nameColumns } from './thing-names'

/** Things that do not hold what their journal adds up to, hold less than nothing, or hold something and are gone. */
export async function* findStockFaults(rows: ReadRows, only: string | null): AsyncGenerator<Fault, void, void> {
  for (const noun of stockNouns) {
    const certainty = noun === 'batch' ? 'thing."partCertainty"' : `'none'`
    const more = ['thing."goneAt" IS NOT NULL AS "isGone"', `${certainty} AS "certainty"`, ...nameColumns(noun)]
    const sql = `${stockSumsSql(noun, more)}${only === null ? '' : ' WHERE thing."id" = ?'}`
    for await (const row of each(rows, sql, only === null ? [] : [only])) {
      const held = { whole: number(row[1]), partStrandTenths: number(row[2]) }
      const journal = { whole: number(row[3]), partStrandTenths: number(row[4]) }
      const isGone = isTrue(row[5])
      const id = text(row[0])
      const about = concerned(noun, id, row[7], row[8])
      if (noun === 'batch' && isGone && (!isNoAmount(held) || row[6] !== 'none'))
        yield { kind: 'gone-holds', id: `gone-holds:${id}`, about, held, journal }
      else if (!isSameAmount(held, journal))
        yield { kind: 'stock-differs', id: `stock-differs:${id}`, about, noun, held, journal, isGone }
      else if (isBelowNothing(held)) yield { kind: 'below-nothing', id: `below-nothing:${id}`, about, noun, held }
    }
  }
}

/** Things that live or lie in a place that was taken away, or that are out and since no day, or home and out all the same. */
export async function* findWhereaboutsFaults(rows: ReadRows, only: string | null): AsyncGenerator<Fault, void, void> {
  const isAway = `(thing."homePlaceId" IS NOT NULL AND thing."currentPlaceId" IS NOT NULL AND thing."homePlaceId" <> thing."currentPlaceId")`
  for (const noun of stockNouns) {
    const sql = `SELECT thing."id" AS "id", CASE WHEN h."goneAt" IS NULL THEN NULL ELSE h."label" END AS "home",
        CASE WHEN c."goneAt" IS NULL THEN NULL ELSE c."label" END AS "here", ${isAway} AS "isAway", ${nameColumns(noun).join(', ')}
      FROM "${tableOf(noun)}" thing
      LEFT JOIN "Place" h ON h."id" = thing."homePlaceId"
      LEFT JOIN "Place" c ON c."id" = thing."currentPlaceId"
      WHERE thing."goneAt" IS NULL
        AND (h."goneAt" IS NOT NULL OR c."goneAt" IS NOT NULL OR ${isAway} <> (thing."outSince" IS NOT NULL))
        ${only === null ? '' : 'AND thing."id" = ?'}`
    for await (const row of each(rows, sql, only === null ? [] : [only])) {
      const [id, home, current] = [text(row[0]), textOrNull(row[1]), textOrNull(row[2])]
      const about = concerned(noun, id, row[4], row[5])
      if (home !== null || current !== null) yield { kind: 'in-gone-place', id: `in-gone-place:${id}`, about, home, current }
      else yield { kind: 'out-differs', id: `out-differs:${id}`, about, isAway: isTrue(row[3]) }
    }
  }
}
