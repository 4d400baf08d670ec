import 'server-only'
import type { ChartKind, CoverKind, Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import type { ThreadList } from '#lib/chart/thread-list'
import type { ClothDyeing, ClothPiece, WashState, Weave } from '#lib/cloth/cloth-piece'
import { familyNamed } from '#lib/colour/family'
import type { LabCertainty } from '#lib/colour/lab'
import { needOfList } from '#lib/coverage/need'
import type { ListNeeds } from '#lib/coverage/need-index'
import type { NotionCard, NotionKind } from '#lib/notion/notion'
import type { Place, PlaceKind } from '#lib/place/place'
import { openStatuses, type ProjectStatus, underWayStatuses } from '#lib/project/life-cycle'
import type { Certainty } from '#lib/quantity/certainty'
import type { Settings } from '#lib/settings/settings'
import type { Batch, PartCertainty, StockPromise } from '#lib/stock/batch'
import { allowanceChoiceOf, allowanceOf } from '#lib/thread/allowance'
import { type StitchTally, stitches, type Working } from '#lib/thread/stitches'
import type { Dyeing, Thread, ThreadLine } from '#lib/thread/thread'
import { isTrue, labOfCells, number, numberOrNull, text, textOrNull } from '../cells'
import { type Cell, each, type ReadRows } from '../read-snapshot'

/** A design with what its chart says of it. */
export type DesignFacts = {
  design: Design
  chartTitle: string
  kind: ChartKind
  ownerId: string
  copies: number
  partsNeeded: number
  partsHeld: number
  homePlaceId: string | null
  currentPlaceId: string | null
  boughtOn: string | null
  designerIds: string[]
  themeIds: string[]
}

type Names = Map<string, string>

/** `column IN (…)` for some ids, or nothing at all for every row. */
function among(column: string, ids: readonly string[] | null): { sql: string; values: Cell[] } {
  return ids === null
    ? { sql: '', values: [] }
    : { sql: ` AND ${column} IN (${ids.map(() => '?').join(', ') || 'NULL'})`, values: [...ids] }
}

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

/** Designs of charts that are not gone; `designIds` null reads all. */
export async function readDesigns(rows: ReadRows, designIds: readonly string[] | null): Promise<Map<string, DesignFacts>> {
  const designs = new Map<string, DesignFacts>()
  const scope = among('d."id"', designIds)
  const sql = `SELECT d."id", d."chartId", d."title", d."widthStitches", d."heightStitches", d."measuredWidthUm", d."measuredHeightUm",
      d."advisedThreads", d."advisedPerUm", d."advisedOver", d."advisedWeave", d."insistsOnWeave", d."advisedCloth", d."coverKind",
      c."title", c."kind", c."ownerId", c."copies", c."partsNeeded", c."partsHeld", c."homePlaceId", c."currentPlaceId", c."boughtOn",
      d."allowanceProfile", d."allowanceHundredths"
    FROM "Design" d JOIN "Chart" c ON c."id" = d."chartId" WHERE c."goneAt" IS NULL${scope.sql}`
  const byChart = new Map<string, DesignFacts[]>()
  for await (const row of each(rows, sql, scope.values)) {
    const facts: DesignFacts = {
      design: {
        id: text(row[0]),
        chartId: text(row[1]),
        title: text(row[2]),
        size:
          row[3] !== null
            ? { kind: 'stitches', width: number(row[3]), height: number(row[4]) }
            : row[5] !== null
              ? { kind: 'measured', widthUm: number(row[5]), heightUm: number(row[6]) }
              : { kind: 'unknown' },
        advised:
          row[7] === null
            ? null
            : {
                count: { threads: number(row[7]), perUm: number(row[8]) },
                over: number(row[9]) as 1 | 2,
                weave: textOrNull(row[10]) as Weave | null,
                insists: isTrue(row[11]),
                name: textOrNull(row[12]),
              },
        coverKind: textOrNull(row[13]) as CoverKind | null,
        allowance: allowanceChoiceOf(textOrNull(row[23]), numberOrNull(row[24])),
      },
      chartTitle: text(row[14]),
      kind: text(row[15]) as ChartKind,
      ownerId: text(row[16]),
      copies: number(row[17]),
      partsNeeded: number(row[18]),
      partsHeld: number(row[19]),
      homePlaceId: textOrNull(row[20]),
      currentPlaceId: textOrNull(row[21]),
      boughtOn: textOrNull(row[22]),
      designerIds: [],
      themeIds: [],
    }
    designs.set(facts.design.id, facts)
    byChart.set(facts.design.chartId, [...(byChart.get(facts.design.chartId) ?? []), facts])
  }
  const chartScope = among('"chartId"', designIds && [...byChart.keys()])
  const designerSql = `SELECT "chartId", "designerId" FROM "ChartDesigner" WHERE 1 = 1${chartScope.sql} ORDER BY "chartId", "position"`
  for await (const [chartId, designerId] of each(rows, designerSql, chartScope.values)) {
    for (const facts of byChart.get(text(chartId)) ?? []) facts.designerIds.push(text(designerId))
  }
  const themeScope = among('"designId"', designIds)
  const themeSql = `SELECT "designId", "themeId" FROM "DesignTheme" WHERE 1 = 1${themeScope.sql} ORDER BY "designId", "themeId"`
  for await (const [designId, themeId] of each(rows, themeSql, themeScope.values)) {
    designs.get(text(designId))?.themeIds.push(text(themeId))
  }
  return designs
}

/**
 * What each thread list of these designs needs, at the chart's own advice, one list after another.
 *
 * @param designIds  null reads the lists of all.
 */
export async function* readNeeds(
  rows: ReadRows,
  designIds: readonly string[] | null,
  context: {
    designs: ReadonlyMap<string, DesignFacts>
    lines: ReadonlyMap<string, ThreadLine>
    lineOfThread: ReadonlyMap<string, string>
    settings: Settings
  },
): AsyncGenerator<ListNeeds, void, void> {
  const linesByThread = {
    get: (threadId: string) => context.lines.get(context.lineOfThread.get(threadId) ?? ''),
  } as ReadonlyMap<string, ThreadLine>
  const scope = among('l."designId"', designIds)
  const sql = `SELECT l."id", l."designId", l."isIncomplete", k."id", k."hasTally", ${stitches.map((stitch) => `k."${stitch}"`).join(', ')},
      t."threadId", t."strands", t."statedHundredths", t."statedPutUpTenths"
    FROM "ThreadList" l
    LEFT JOIN "KeyLine" k ON k."threadListId" = l."id"
    LEFT JOIN "KeyLineThread" t ON t."keyLineId" = k."id"
    WHERE 1 = 1${scope.sql}
    ORDER BY l."id", k."position", t."position"`
  let list: ThreadList | undefined
  const needsOf = (ended: ThreadList | undefined): ListNeeds | null => {
    const facts = ended && context.designs.get(ended.designId)
    if (!facts) return null
    const needs = needOfList({
      list: ended,
      lines: linesByThread,
      advised: facts.design.advised,
      size: stitchSize(facts.design),
      coverKind: facts.design.coverKind,
      settings: { allowance: allowanceOf(facts.design, context.settings) },
    })
    return { listId: ended.id, designId: facts.design.id, isIncomplete: ended.isIncomplete, needs }
  }
  const tallyFrom = 5
  const threadFrom = tallyFrom + stitches.length
  for await (const row of each(rows, sql, scope.values)) {
    if (list?.id !== row[0]) {
      const ended = needsOf(list)
      if (ended) yield ended
      list = { id: text(row[0]), designId: text(row[1]), name: '', isIncomplete: isTrue(row[2]), keyLines: [] }
    }
    if (!list || row[3] === null) continue
    let keyLine = list.keyLines.at(-1)
    if (keyLine?.id !== row[3]) {
      const tally: StitchTally | null = isTrue(row[4]) ? {} : null
      if (tally) {
        stitches.forEach((stitch, at) => {
          tally[stitch] = number(row[tallyFrom + at])
        })
      }
      keyLine = { id: text(row[3]), symbol: null, threads: [], tally }
      list.keyLines.push(keyLine)
    }
    if (!keyLine || row[threadFrom] === null) continue
    const hundredths = row[threadFrom + 2]
    keyLine.threads.push({
      threadId: text(row[threadFrom]),
      strands: number(row[threadFrom + 1]),
      stated:
        hundredths === null || hundredths === undefined
          ? null
          : { hundredths: number(hundredths), putUpTenths: numberOrNull(row[threadFrom + 3]) },
    })
  }
  const last = needsOf(list)
  if (last) yield last
}
