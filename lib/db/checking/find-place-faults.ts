import 'server-only'
import { type Fault, faultsOfTree, type TreePlace } from '#lib/checking/fault'
import { openStatuses } from '#lib/project/life-cycle'
import { isTrue, text, textOrNull } from '../cells'
import { each, type ReadRows } from '../read-snapshot'
import { concerned, nameColumns } from './thing-names'

/** Every place, gone ones too: a collection has some thousands at most. */
export async function readTree(rows: ReadRows): Promise<Map<string, TreePlace>> {
  const places = new Map<string, TreePlace>()
  const sql = `SELECT "id" AS "id", "label" AS "label", "parentId" AS "parentId", "path" AS "path", "goneAt" IS NOT NULL AS "isGone"
    FROM "Place" ORDER BY "id"`
  for await (const row of each(rows, sql)) {
    const id = text(row[0])
    places.set(id, { id, label: text(row[1]), parentId: textOrNull(row[2]), path: text(row[3]), isGone: isTrue(row[4]) })
  }
  return places
}

/** What is wrong with the tree of places, and projects kitted in a place that was taken away. */
export async function* findPlaceFaults(rows: ReadRows): AsyncGenerator<Fault, void, void> {
  const places = await readTree(rows)
  for (const { placeId, ...facts } of faultsOfTree(places)) {
    const about = concerned('place', placeId, places.get(placeId)?.label, placeId)
    yield { ...facts, id: `${facts.kind}:${placeId}`, about }
  }
  const sql = `SELECT thing."id" AS "id", c."label" AS "label", ${nameColumns('project').join(', ')}
    FROM "Project" thing JOIN "Place" c ON c."id" = thing."placeId"
    WHERE thing."goneAt" IS NULL AND c."goneAt" IS NOT NULL AND thing."status" IN (${openStatuses.map(() => '?').join(', ')})`
  for await (const [id, label, name, link] of each(rows, sql, [...openStatuses]))
    yield { kind: 'bag-gone', id: `bag-gone:${text(id)}`, about: concerned('project', id, name, link), label: text(label) }
}
