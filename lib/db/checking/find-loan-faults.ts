import 'server-only'
import type { Concerned, Fault, StockNoun } from '#lib/checking/fault'
import { grouped } from '#lib/grouped'
import { peopleKinds } from '#lib/place/place'
import { isTrue, number, text, textOrNull } from '../cells'
import { each, type ReadRows } from '../read-snapshot'
import { journalColumn, stockNouns, tableOf } from './stock-sums'
import { concerned, nameColumns } from './thing-names'

/** A thing that is lent or looked for, as it stands. */
type Standing = {
  about: Concerned
  isGone: boolean
  homePlaceId: string | null
  currentPlaceId: string | null
  currentKind: string | null
  isOut: boolean
  copies: number
}

/** @param among  a SELECT of the ids that are asked about */
async function readStanding(rows: ReadRows, noun: StockNoun, among: string): Promise<Map<string, Standing>> {
  const found = new Map<string, Standing>()
  const sql = `SELECT thing."id" AS "id", thing."goneAt" IS NOT NULL AS "isGone", thing."homePlaceId" AS "home",
      thing."currentPlaceId" AS "here", c."kind" AS "kind", thing."outSince" IS NOT NULL AS "isOut",
      ${noun === 'chart' ? 'thing."copies"' : '1'} AS "copies", ${nameColumns(noun).join(', ')}
    FROM "${tableOf(noun)}" thing LEFT JOIN "Place" c ON c."id" = thing."currentPlaceId" WHERE thing."id" IN (${among})`
  for await (const row of each(rows, sql))
    found.set(text(row[0]), {
      about: concerned(noun, row[0], row[7], row[8]),
      ...{ isGone: isTrue(row[1]), homePlaceId: textOrNull(row[2]), currentPlaceId: textOrNull(row[3]) },
      ...{ currentKind: textOrNull(row[4]), isOut: isTrue(row[5]), copies: number(row[6]) },
    })
  return found
}

type OpenLine = {
  id: string
  kind: string
  withWhom: string
  placeId: string
  noun: StockNoun | 'project'
  thingId: string
  count: number
}

const openLines = `FROM "LoanLine" n JOIN "Loan" l ON l."id" = n."loanId" WHERE n."backOn" IS NULL AND l."closedOn" IS NULL`

/** What is lent and not there, lent twice, with somebody who is gone, or with somebody and on no loan. */
export async function* findLoanFaults(rows: ReadRows): AsyncGenerator<Fault, void, void> {
  const lines: OpenLine[] = []
  const gone = new Map<string, string>()
  const sql = `SELECT n."id" AS "id", l."kind" AS "kind", p."label" AS "label", l."placeId" AS "placeId", p."goneAt" IS NOT NULL AS "isGone",
      n."batchId" AS "batchId", n."clothPieceId" AS "clothPieceId", n."chartId" AS "chartId", n."notionId" AS "notionId",
      n."projectId" AS "projectId", n."count" AS "count", l."id" AS "loanId"
    FROM "LoanLine" n JOIN "Loan" l ON l."id" = n."loanId" JOIN "Place" p ON p."id" = l."placeId"
    WHERE n."backOn" IS NULL AND l."closedOn" IS NULL ORDER BY n."id"`
  for await (const row of each(rows, sql)) {
    if (isTrue(row[4])) gone.set(text(row[11]), text(row[2]))
    const at = row.slice(5, 10).findIndex((cell) => cell !== null)
    if (at < 0) continue
    lines.push({
      ...{ id: text(row[0]), kind: text(row[1]), withWhom: text(row[2]), placeId: text(row[3]) },
      ...{ noun: (['batch', 'cloth', 'chart', 'notion', 'project'] as const)[at] as OpenLine['noun'] },
      ...{ thingId: text(row[5 + at]), count: number(row[10]) },
    })
  }
  for (const [id, withWhom] of gone)
    yield { kind: 'lender-gone', id: `lender-gone:${id}`, about: { noun: 'loan', id, name: withWhom, linkId: id }, withWhom }

  const things = new Map<string, Standing>()
  for (const noun of stockNouns)
    for (const [id, standing] of await readStanding(rows, noun, `SELECT n."${journalColumn(noun)}" ${openLines}`))
      things.set(id, standing)
  const elsewhere = new Set<string>()
  for (const { id, kind, withWhom, placeId, noun, thingId } of lines) {
    const thing = things.get(thingId)
    if (!thing || noun === 'chart') continue
    const why = thing.isGone
      ? 'gone'
      : kind === 'borrow'
        ? thing.currentPlaceId === thing.homePlaceId && 'at-home'
        : thing.currentPlaceId !== placeId && thing.currentKind !== 'not found' && 'elsewhere'
    if (!why) continue
    elsewhere.add(id)
    yield { kind: 'lent-elsewhere', id: `lent-elsewhere:${id}`, about: thing.about, lineId: id, withWhom, why }
  }
  yield* findLentTwice(
    rows,
    lines.filter(({ id }) => !elsewhere.has(id)),
    things,
  )

  const unlentSql = `SELECT thing."id" AS "id", c."label" AS "label", ${nameColumns('chart').join(', ')}
    FROM "Chart" thing JOIN "Place" c ON c."id" = thing."currentPlaceId"
    WHERE thing."goneAt" IS NULL AND c."goneAt" IS NULL AND c."kind" IN (${peopleKinds.map(() => '?').join(', ')})
      AND thing."id" NOT IN (SELECT n."chartId" ${openLines} AND n."chartId" IS NOT NULL)`
  for await (const [id, label, name, link] of each(rows, unlentSql, [...peopleKinds]))
    yield {
      kind: 'unlent-with-somebody',
      id: `unlent-with-somebody:${text(id)}`,
      about: concerned('chart', id, name, link),
      withWhom: text(label),
    }
}

async function* findLentTwice(
  rows: ReadRows,
  lines: readonly OpenLine[],
  things: ReadonlyMap<string, Standing>,
): AsyncGenerator<Fault, void, void> {
  const byThing = grouped(lines, ({ thingId }) => thingId)
  const projects = new Map<string, Concerned>()
  const sql = `SELECT thing."id" AS "id", ${nameColumns('project').join(', ')} FROM "Project" thing
    WHERE thing."id" IN (SELECT n."projectId" ${openLines} AND n."projectId" IS NOT NULL)`
  for await (const [id, name, link] of each(rows, sql)) projects.set(text(id), concerned('project', id, name, link))
  for (const [thingId, same] of byThing) {
    const about = things.get(thingId)?.about ?? projects.get(thingId)
    const [first] = same
    if (!about || !first || same.length < 2) continue
    // The newest line stands; of a chart as many as there are copies. Two lent rows of thread laid together are one row on two lines.
    const surplus =
      first.noun === 'chart'
        ? beyondCopies(same, things.get(thingId)?.copies ?? 0)
        : first.noun === 'batch' && new Set(same.map(({ placeId }) => placeId)).size < 2
          ? []
          : same.slice(0, -1)
    if (surplus.length > 0)
      yield {
        ...{ kind: 'lent-twice', id: `lent-twice:${thingId}`, about },
        ...{ withWhom: same.map(({ withWhom }) => withWhom), lineIds: surplus.map(({ id }) => id) },
      }
  }
}

function beyondCopies(same: readonly OpenLine[], copies: number): OpenLine[] {
  let left = copies
  return same.toReversed().filter(({ count }) => {
    left -= count
    return left < 0
  })
}

/** What is looked for and there, or gone, or looked for twice; and what waits on two lists to be put back. */
export async function* findLookedForFaults(rows: ReadRows): AsyncGenerator<Fault, void, void> {
  for (const noun of stockNouns) {
    const column = journalColumn(noun)
    const asked = `FROM "MissingThing" q WHERE q."status" = 'open' AND q."${column}" IS NOT NULL`
    const things = await readStanding(rows, noun, `SELECT q."${column}" ${asked}`)
    const askedOf = new Map<string, string[]>()
    for await (const [askedId, id] of each(rows, `SELECT q."id" AS "id", q."${column}" AS "thingId" ${asked} ORDER BY q."id"`))
      askedOf.set(text(id), [...(askedOf.get(text(id)) ?? []), text(askedId)])
    for (const [id, askedIds] of askedOf) {
      const thing = things.get(id)
      if (!thing) continue
      const { about, isGone, isOut } = thing
      const askedId = askedIds.at(-1) as string
      if (isGone || !isOut)
        for (const one of askedIds) yield { kind: 'looked-for-here', id: `looked-for-here:${one}`, about, askedId: one, isGone }
      else if (askedIds.length > 1)
        yield { kind: 'looked-for-twice', id: `looked-for-twice:${askedId}`, about, askedIds: askedIds.slice(0, -1) }
    }
    const waitingSql = `SELECT thing."id" AS "id", w."title" AS "title", ${nameColumns(noun).join(', ')}
      FROM "WalkLine" n JOIN "Walk" w ON w."id" = n."walkId" JOIN "${tableOf(noun)}" thing ON thing."id" = n."${column}"
      WHERE n."carriedAt" IS NULL AND w."status" = 'open' AND w."kind" = 'put-back' ORDER BY thing."id", w."startedAt", n."id"`
    const waiting = new Map<string, { about: Concerned; walks: string[] }>()
    for await (const [id, title, name, link] of each(rows, waitingSql)) {
      const known = waiting.get(text(id)) ?? { about: concerned(noun, id, name, link), walks: [] }
      known.walks.push(text(title))
      waiting.set(text(id), known)
    }
    for (const [id, { about, walks }] of waiting)
      if (walks.length > 1) yield { kind: 'put-back-twice', id: `put-back-twice:${id}`, about, walks }
  }
}
