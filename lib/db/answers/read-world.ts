import 'server-only'
import type { ClothDyeing, ClothPiece, WashState, Weave } from '#lib/cloth/cloth-piece'
import type { NotionCard, NotionKind } from '#lib/notion/notion'
import type { Place, PlaceKind } from '#lib/place/place'
import { openStatuses, type ProjectStatus, underWayStatuses } from '#lib/project/life-cycle'
import type { Certainty } from '#lib/quantity/certainty'
import { among, isTrue, number, numberOrNull, text, textOrNull } from '../cells'
import { each, type ReadRows } from '../read-snapshot'

type Names = Map<string, string>

export async function readRevision(rows: ReadRows): Promise<number> {
  for await (const [revision] of each(rows, `SELECT "number" FROM "Revision" WHERE "id" = 'main'`)) return number(revision)
  throw new Error('readRevision: the collection has no revision row')
}

export async function readNames(rows: ReadRows, table: 'Owner' | 'Designer'): Promise<Names> {
  const names: Names = new Map()
  for await (const [id, name] of each(rows, `SELECT "id", "name" FROM "${table}"`)) names.set(text(id), text(name))
  return names
}

export type Theme = { axis: 'season' | 'subject' | 'form'; name: string }

export async function readThemes(rows: ReadRows): Promise<Map<string, Theme>> {
  const themes = new Map<string, Theme>()
  for await (const [id, axis, name] of each(rows, 'SELECT "id", "axis", "name" FROM "Theme"')) {
    themes.set(text(id), { axis: text(axis) as Theme['axis'], name: text(name) })
  }
  return themes
}

export async function readPlaces(rows: ReadRows): Promise<Map<string, Place>> {
  const places = new Map<string, Place>()
  const sql = `SELECT "id", "label", "name", "kind", "parentId", "path", "walkOrder", "capacity" FROM "Place" WHERE "goneAt" IS NULL`
  for await (const row of each(rows, sql)) {
    places.set(text(row[0]), {
      id: text(row[0]),
      label: text(row[1]),
      name: textOrNull(row[2]),
      kind: text(row[3]) as PlaceKind,
      parentId: textOrNull(row[4]),
      path: text(row[5]),
      walkOrder: numberOrNull(row[6]),
      capacity: numberOrNull(row[7]),
    })
  }
  return places
}

/** Pieces of cloth held, by id. What keeps one (`readKeptCloth`) reserves it: by `allRows` also what is not seen. */
export async function readPieces(rows: ReadRows, allRows: ReadRows = rows): Promise<ClothPiece[]> {
  const pieces: ClothPiece[] = []
  const reserved = new Set<string>()
  const marks = (values: readonly unknown[]) => values.map(() => '?').join(', ')
  const reservedSql = `SELECT "clothPieceId" FROM "Project"
      WHERE "clothPieceId" IS NOT NULL AND "goneAt" IS NULL AND "status" IN (${marks(openStatuses)})
    UNION SELECT c."id" FROM "ClothPiece" c JOIN "Project" p ON p."id" = c."keptForProjectId"
      WHERE p."goneAt" IS NULL AND p."status" IN (${marks(underWayStatuses)})
    UNION SELECT c."clothPieceId" FROM "CutPlanPiece" c JOIN "CutPlan" p ON p."id" = c."cutPlanId" WHERE p."status" = 'kept'`
  for await (const [id] of each(allRows, reservedSql, [...openStatuses, ...underWayStatuses])) reserved.add(text(id))
  const sql = `SELECT "id", "ownerId", "label", "name", "colourName", "weave", "endsThreads", "endsPerUm", "picksThreads", "picksPerUm",
      "widthUm", "heightUm", "isSquared", "sizeCertainty", "isTurnable", "parentId", "homePlaceId", "currentPlaceId",
      "labL", "labA", "labB", "dyeing", "washState", "isCountStale"
    FROM "ClothPiece" WHERE "goneAt" IS NULL ORDER BY "id"`
  for await (const row of each(rows, sql)) {
    pieces.push({
      id: text(row[0]),
      ownerId: text(row[1]),
      label: textOrNull(row[2]),
      name: text(row[3]),
      colourName: textOrNull(row[4]),
      weave: text(row[5]) as Weave,
      ends: { threads: number(row[6]), perUm: number(row[7]) },
      picks: { threads: number(row[8]), perUm: number(row[9]) },
      widthUm: number(row[10]),
      heightUm: number(row[11]),
      isSquared: isTrue(row[12]),
      sizeCertainty: text(row[13]) as Certainty,
      isTurnable: isTrue(row[14]),
      isReserved: reserved.has(text(row[0])),
      isOffcut: row[15] !== null,
      homePlaceId: textOrNull(row[16]),
      currentPlaceId: textOrNull(row[17]),
      lab: row[18] === null ? null : { L: number(row[18]), a: number(row[19]), b: number(row[20]) },
      dyeing: textOrNull(row[21]) as ClothDyeing | null,
      washState: text(row[22]) as WashState,
      isCountStale: isTrue(row[23]),
    })
  }
  return pieces
}

export type ProjectFacts = {
  id: string
  designId: string
  ownerId: string
  placeId: string | null
  status: ProjectStatus
  forWhom: string | null
  note: string | null
}

/** Projects to be found by name; `ids` null reads them all, removed ones left out. */
export async function readProjects(rows: ReadRows, ids: readonly string[] | null): Promise<Map<string, ProjectFacts>> {
  const projects = new Map<string, ProjectFacts>()
  const scope = among('"id"', ids)
  const sql = `SELECT "id", "designId", "ownerId", "placeId", "status", "forWhom", "note" FROM "Project"
    WHERE "goneAt" IS NULL${scope.sql}`
  for await (const row of each(rows, sql, scope.values)) {
    projects.set(text(row[0]), {
      id: text(row[0]),
      designId: text(row[1]),
      ownerId: text(row[2]),
      placeId: textOrNull(row[3]),
      status: text(row[4]) as ProjectStatus,
      forWhom: textOrNull(row[5]),
      note: textOrNull(row[6]),
    })
  }
  return projects
}

export type NotionFacts = Pick<NotionCard, 'kind' | 'name' | 'size'> & {
  id: string
  ownerId: string
  count: number
  homePlaceId: string | null
  currentPlaceId: string | null
  /** In use for it. */
  projectId: string | null
}

/** Notions by id; `ids` null reads them all, removed ones left out. */
export async function readNotions(rows: ReadRows, ids: readonly string[] | null): Promise<Map<string, NotionFacts>> {
  const notions = new Map<string, NotionFacts>()
  const scope = among('"id"', ids)
  const sql = `SELECT "id", "ownerId", "kind", "name", "size", "count", "homePlaceId", "currentPlaceId", "projectId" FROM "Notion"
    WHERE "goneAt" IS NULL${scope.sql}`
  for await (const row of each(rows, sql, scope.values)) {
    notions.set(text(row[0]), {
      id: text(row[0]),
      ownerId: text(row[1]),
      kind: text(row[2]) as NotionKind,
      name: text(row[3]),
      size: textOrNull(row[4]),
      count: number(row[5]),
      homePlaceId: textOrNull(row[6]),
      currentPlaceId: textOrNull(row[7]),
      projectId: textOrNull(row[8]),
    })
  }
  return notions
}

/** What things were called before, by the id of what they are now, in the order it was given up. */
export async function readFormer(rows: ReadRows, what: 'codes' | 'titles'): Promise<Map<string, string[]>> {
  const former = new Map<string, string[]>()
  const sql =
    what === 'codes'
      ? 'SELECT "threadId", "code" FROM "FormerThreadCode" ORDER BY "id"'
      : 'SELECT "chartId", "title" FROM "FormerTitle" ORDER BY "id"'
  for await (const [id, name] of each(rows, sql)) former.set(text(id), [...(former.get(text(id)) ?? []), text(name)])
  return former
}
