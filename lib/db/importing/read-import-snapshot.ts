import 'server-only'
import type { ChartKind, CoverKind } from '#lib/chart/design'
import type { ClothDyeing, OneWayReason, WashState, Weave } from '#lib/cloth/cloth-piece'
import type { ImportKind } from '#lib/importing/fields'
import {
  emptySnapshot,
  type FormerLabelRow,
  type FormerNames,
  type ImportedNoun,
  type KeyLineRow,
  type RowOf,
  type Snapshot,
} from '#lib/importing/snapshot'
import type { NotionKind } from '#lib/notion/notion'
import type { PlaceKind } from '#lib/place/place'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { Certainty } from '#lib/quantity/certainty'
import type { PartCertainty } from '#lib/stock/batch'
import type { AllowanceChoice } from '#lib/thread/allowance'
import { type StitchTally, stitches, type Working } from '#lib/thread/stitches'
import type { Dyeing } from '#lib/thread/thread'
import { isTrue, labOfCells, number, numberOrNull, text, textOrNull } from '../cells'
import type { Cell, ReadRows } from '../read-snapshot'

type Reader<N extends ImportedNoun> = { sql: string; row: (cells: Cell[]) => RowOf[N] }

/** One select a noun; what hangs on it (a chart's designers, a list's lines) is read after. */
const readers: { [N in ImportedNoun]: Reader<N> } = {
  owner: {
    sql: 'SELECT "id", "name", "kind" FROM "Owner"',
    row: ([id, name, kind]) => ({ id: text(id), name: text(name), kind: text(kind) as RowOf['owner']['kind'] }),
  },
  place: {
    sql: 'SELECT "id", "label", "kind", "parentId", "name", "walkOrder", "capacity", "note", "goneAt" FROM "Place"',
    row: ([id, label, kind, parentId, name, walkOrder, capacity, note, goneAt]) => ({
      id: text(id),
      label: text(label),
      kind: text(kind) as PlaceKind,
      parentId: textOrNull(parentId),
      name: textOrNull(name),
      walkOrder: numberOrNull(walkOrder),
      capacity: numberOrNull(capacity),
      note: textOrNull(note),
      isGone: goneAt !== null,
    }),
  },
  maker: {
    sql: 'SELECT "id", "name" FROM "Maker"',
    row: ([id, name]) => ({ id: text(id), name: text(name) }),
  },
  line: {
    sql: `SELECT "id", "makerId", "name", "fibre", "strands", "putUpStrandTenths", "putUpWord", "dyeing", "lotsMatter", "working"
      FROM "ThreadLine"`,
    row: ([id, makerId, name, fibre, strands, putUp, putUpWord, dyeing, lotsMatter, working]) => ({
      id: text(id),
      makerId: text(makerId),
      name: text(name),
      fibre: textOrNull(fibre),
      strands: number(strands),
      putUpStrandTenths: number(putUp),
      putUpWord: text(putUpWord),
      dyeing: text(dyeing) as Dyeing,
      lotsMatter: isTrue(lotsMatter),
      working: text(working) as Working,
    }),
  },
  thread: {
    sql: 'SELECT "id", "lineId", "code", "name", "labL", "labA", "labB", "minimumPutUps", "note", "goneAt" FROM "Thread"',
    row: ([id, lineId, code, name, L, a, b, minimumPutUps, note, goneAt]) => ({
      id: text(id),
      lineId: text(lineId),
      code: text(code),
      name: textOrNull(name),
      lab: labOfCells(L, a, b),
      minimumPutUps: numberOrNull(minimumPutUps),
      note: textOrNull(note),
      isGone: goneAt !== null,
    }),
  },
  standIn: {
    sql: 'SELECT "id", "threadId", "standInThreadId" FROM "StandIn"',
    row: ([id, threadId, standInThreadId]) => ({
      id: text(id),
      threadId: text(threadId),
      standInThreadId: text(standInThreadId),
    }),
  },
  batch: {
    sql: `SELECT "id", "threadId", "ownerId", "lot", "putUpStrandTenths", "wholePutUps", "partStrandTenths", "partCertainty",
      "homePlaceId", "currentPlaceId" FROM "Batch" WHERE "goneAt" IS NULL`,
    row: ([id, threadId, ownerId, lot, putUp, wholePutUps, part, partCertainty, homePlaceId, currentPlaceId]) => ({
      id: text(id),
      threadId: text(threadId),
      ownerId: text(ownerId),
      lot: textOrNull(lot),
      putUpStrandTenths: number(putUp),
      wholePutUps: number(wholePutUps),
      partStrandTenths: number(part),
      partCertainty: text(partCertainty) as PartCertainty,
      homePlaceId: textOrNull(homePlaceId),
      currentPlaceId: textOrNull(currentPlaceId),
    }),
  },
  designer: {
    sql: 'SELECT "id", "name" FROM "Designer"',
    row: ([id, name]) => ({ id: text(id), name: text(name) }),
  },
  theme: {
    sql: 'SELECT "id", "axis", "name" FROM "Theme"',
    row: ([id, axis, name]) => ({ id: text(id), axis: text(axis) as RowOf['theme']['axis'], name: text(name) }),
  },
  chart: {
    sql: `SELECT "id", "title", "kind", "ownerId", "copies", "edition", "partsNeeded", "partsHeld", "homePlaceId", "currentPlaceId",
      "boughtOn", "priceMinor", "note" FROM "Chart" WHERE "goneAt" IS NULL`,
    row: ([id, title, kind, ownerId, copies, edition, needed, held, home, current, boughtOn, priceMinor, note]) => ({
      id: text(id),
      title: text(title),
      kind: text(kind) as ChartKind,
      ownerId: text(ownerId),
      designerIds: [],
      copies: number(copies),
      edition: textOrNull(edition),
      partsNeeded: number(needed),
      partsHeld: number(held),
      homePlaceId: textOrNull(home),
      currentPlaceId: textOrNull(current),
      boughtOn: textOrNull(boughtOn),
      priceMinor: numberOrNull(priceMinor),
      note: textOrNull(note),
    }),
  },
  design: {
    sql: `SELECT d."id", d."chartId", d."title", d."position", d."widthStitches", d."heightStitches", d."measuredWidthUm",
      d."measuredHeightUm", d."advisedThreads", d."advisedPerUm", d."advisedOver", d."advisedWeave", d."insistsOnWeave",
      d."advisedCloth", d."coverKind", d."note", d."allowanceProfile", d."allowanceHundredths"
      FROM "Design" d JOIN "Chart" c ON c."id" = d."chartId" WHERE c."goneAt" IS NULL`,
    row: (cells) => ({
      id: text(cells[0]),
      chartId: text(cells[1]),
      title: text(cells[2]),
      position: number(cells[3]),
      widthStitches: numberOrNull(cells[4]),
      heightStitches: numberOrNull(cells[5]),
      measuredWidthUm: numberOrNull(cells[6]),
      measuredHeightUm: numberOrNull(cells[7]),
      advisedCount: cells[8] === null ? null : { threads: number(cells[8]), perUm: number(cells[9]) },
      advisedOver: numberOrNull(cells[10]) as 1 | 2 | null,
      advisedWeave: textOrNull(cells[11]) as Weave | null,
      insistsOnWeave: isTrue(cells[12]),
      advisedCloth: textOrNull(cells[13]),
      coverKind: textOrNull(cells[14]) as CoverKind | null,
      note: textOrNull(cells[15]),
      allowanceProfile: textOrNull(cells[16]) as AllowanceChoice['profile'] | null,
      allowanceHundredths: numberOrNull(cells[17]),
      themeIds: [],
    }),
  },
  list: {
    sql: `SELECT l."id", l."designId", l."name", l."position", l."isIncomplete" FROM "ThreadList" l JOIN "Design" d ON d."id" = l."designId"
      JOIN "Chart" c ON c."id" = d."chartId" WHERE c."goneAt" IS NULL`,
    row: ([id, designId, name, position, isIncomplete]) => ({
      id: text(id),
      designId: text(designId),
      name: text(name),
      position: number(position),
      isIncomplete: isTrue(isIncomplete),
      keyLines: [],
    }),
  },
  cloth: {
    sql: `SELECT "id", "ownerId", "label", "makerName", "name", "colourName", "labL", "labA", "labB", "weave", "endsThreads", "endsPerUm",
      "picksThreads", "picksPerUm", "widthUm", "heightUm", "isSquared", "sizeCertainty", "isTurnable", "homePlaceId",
      "currentPlaceId", "note", "goneAt", "countCertainty", "isCountStale", "oneWayBecause", "dyeing", "washState" FROM "ClothPiece"`,
    row: (cells) => ({
      id: text(cells[0]),
      ownerId: text(cells[1]),
      label: textOrNull(cells[2]),
      makerName: textOrNull(cells[3]),
      name: text(cells[4]),
      colourName: textOrNull(cells[5]),
      lab: labOfCells(cells[6], cells[7], cells[8]),
      weave: text(cells[9]) as Weave,
      ends: { threads: number(cells[10]), perUm: number(cells[11]) },
      picks: { threads: number(cells[12]), perUm: number(cells[13]) },
      widthUm: number(cells[14]),
      heightUm: number(cells[15]),
      isSquared: isTrue(cells[16]),
      sizeCertainty: text(cells[17]) as Certainty,
      isTurnable: isTrue(cells[18]),
      homePlaceId: textOrNull(cells[19]),
      currentPlaceId: textOrNull(cells[20]),
      note: textOrNull(cells[21]),
      isGone: cells[22] !== null,
      countCertainty: text(cells[23]) as Certainty,
      isCountStale: isTrue(cells[24]),
      oneWayBecause: textOrNull(cells[25]) as OneWayReason | null,
      dyeing: textOrNull(cells[26]) as ClothDyeing | null,
      washState: text(cells[27]) as WashState,
    }),
  },
  project: {
    sql: `SELECT "id", "designId", "threadListId", "ownerId", "clothPieceId", "status", "placeId", "forWhom", "startedOn", "finishedOn",
      "dueOn", "hoursTenths", "stitchesDone", "finishing", "note", "quantity", "spares" FROM "Project" WHERE "goneAt" IS NULL`,
    row: (cells) => ({
      id: text(cells[0]),
      designId: text(cells[1]),
      threadListId: textOrNull(cells[2]),
      ownerId: text(cells[3]),
      clothPieceId: textOrNull(cells[4]),
      status: text(cells[5]) as ProjectStatus,
      placeId: textOrNull(cells[6]),
      forWhom: textOrNull(cells[7]),
      startedOn: textOrNull(cells[8]),
      finishedOn: textOrNull(cells[9]),
      dueOn: textOrNull(cells[10]),
      hoursTenths: number(cells[11]),
      stitchesDone: number(cells[12]),
      finishing: textOrNull(cells[13]),
      note: textOrNull(cells[14]),
      quantity: number(cells[15]),
      spares: number(cells[16]),
    }),
  },
  notion: {
    sql: `SELECT "id", "ownerId", "kind", "name", "size", "count", "minimum", "packOf", "priceMinor", "homePlaceId", "currentPlaceId",
      "projectId", "note" FROM "Notion" WHERE "goneAt" IS NULL`,
    row: (cells) => ({
      id: text(cells[0]),
      ownerId: text(cells[1]),
      kind: text(cells[2]) as NotionKind,
      name: text(cells[3]),
      size: textOrNull(cells[4]),
      count: number(cells[5]),
      minimum: numberOrNull(cells[6]),
      packOf: numberOrNull(cells[7]),
      priceMinor: numberOrNull(cells[8]),
      homePlaceId: textOrNull(cells[9]),
      currentPlaceId: textOrNull(cells[10]),
      isInUse: cells[11] !== null,
      note: textOrNull(cells[12]),
    }),
  },
}

/** What a file of each kind can name. */
const nounsOf: Record<ImportKind, readonly ImportedNoun[]> = {
  places: ['place'],
  threads: ['owner', 'place', 'maker', 'line', 'thread', 'standIn', 'batch'],
  cloth: ['owner', 'place', 'cloth'],
  charts: ['owner', 'place', 'designer', 'theme', 'chart', 'design'],
  lists: ['maker', 'line', 'thread', 'designer', 'chart', 'design', 'list'],
  projects: ['owner', 'place', 'designer', 'chart', 'design', 'list', 'cloth', 'project'],
  notions: ['owner', 'place', 'notion'],
}

/** Everything that is there of what a file of this kind can name, and the keys of the rows brought in before. */
export async function readImportSnapshot(rows: ReadRows, kind: ImportKind): Promise<Snapshot> {
  const snapshot = { ...emptySnapshot } as Record<ImportedNoun, unknown[]> & {
    broughtIn: Map<string, string>
    formerLabel: FormerLabelRow[]
    former: FormerNames
  }
  for (const noun of nounsOf[kind]) {
    const found: unknown[] = []
    const { sql, row } = readers[noun] as { sql: string; row: (cells: Cell[]) => unknown }
    for await (const some of rows(sql)) found.push(...some.map(row))
    snapshot[noun] = found
  }
  if (nounsOf[kind].includes('chart')) await readDesigners(rows, snapshot.chart as RowOf['chart'][])
  if (kind === 'charts') await readThemes(rows, snapshot.design as RowOf['design'][])
  if (kind === 'lists') await readKeyLines(rows, snapshot.list as RowOf['list'][])
  if (nounsOf[kind].includes('place')) snapshot.formerLabel = await readFormerLabels(rows)
  snapshot.broughtIn = await readBroughtIn(rows, kind)
  snapshot.former = await readFormerNames(rows)
  return snapshot as unknown as Snapshot
}

/** The labels that lead to a place that is there, the latest first. */
async function readFormerLabels(rows: ReadRows): Promise<FormerLabelRow[]> {
  const former: FormerLabelRow[] = []
  const sql = `SELECT f."label", f."placeId", f."why" FROM "FormerLabel" f JOIN "Place" p ON p."id" = f."placeId"
    WHERE p."goneAt" IS NULL ORDER BY f."until" DESC, f."id" DESC`
  for await (const some of rows(sql)) {
    for (const [label, placeId, why] of some)
      former.push({ label: text(label), placeId: text(placeId), isSplit: text(why) === 'split' })
  }
  return former
}

/** What designers, charts and threads were called before they were merged with their doubles. */
async function readFormerNames(rows: ReadRows): Promise<FormerNames> {
  const read = async <T>(sql: string, row: (cells: Cell[]) => T): Promise<T[]> => {
    const found: T[] = []
    for await (const some of rows(sql)) found.push(...some.map(row))
    return found
  }
  return {
    designers: await read('SELECT "name", "designerId" FROM "FormerDesignerName" ORDER BY "id"', ([name, designerId]) => ({
      name: text(name),
      designerId: text(designerId),
    })),
    titles: await read('SELECT "title", "chartId" FROM "FormerTitle" ORDER BY "id"', ([title, chartId]) => ({
      title: text(title),
      chartId: text(chartId),
    })),
    codes: await read('SELECT "makerName", "lineName", "code", "threadId" FROM "FormerThreadCode" ORDER BY "id"', (cells) => ({
      makerName: text(cells[0]),
      lineName: text(cells[1]),
      code: text(cells[2]),
      threadId: text(cells[3]),
    })),
  }
}

async function readBroughtIn(rows: ReadRows, kind: ImportKind): Promise<Map<string, string>> {
  const broughtIn = new Map<string, string>()
  // What a later import changed is no longer what this row made: the row counts as new again.
  const sql = `SELECT r."rowKey", r."nounId" FROM "ImportRow" r JOIN "ImportBatch" i ON i."id" = r."importId"
    WHERE i."status" = 'done' AND i."kind" = ? AND NOT EXISTS (
      SELECT 1 FROM "ImportStep" s JOIN "ImportBatch" l ON l."id" = s."importId"
      WHERE s."nounId" = r."nounId" AND s."did" = 'changed' AND l."status" = 'done' AND l."at" > i."at")`
  for await (const some of rows(sql, [kind])) {
    for (const [rowKey, nounId] of some) broughtIn.set(text(rowKey), textOrNull(nounId) ?? '')
  }
  return broughtIn
}

async function readDesigners(rows: ReadRows, charts: RowOf['chart'][]): Promise<void> {
  const byId = new Map(charts.map((chart) => [chart.id, chart]))
  const sql = 'SELECT "chartId", "designerId" FROM "ChartDesigner" ORDER BY "chartId", "position"'
  for await (const some of rows(sql)) {
    for (const [chartId, designerId] of some) byId.get(text(chartId))?.designerIds.push(text(designerId))
  }
}

async function readThemes(rows: ReadRows, designs: RowOf['design'][]): Promise<void> {
  const byId = new Map(designs.map((design) => [design.id, design]))
  for await (const some of rows('SELECT "designId", "themeId" FROM "DesignTheme" ORDER BY "designId", "themeId"')) {
    for (const [designId, themeId] of some) byId.get(text(designId))?.themeIds.push(text(themeId))
  }
}

async function readKeyLines(rows: ReadRows, lists: RowOf['list'][]): Promise<void> {
  const byId = new Map(lists.map((list) => [list.id, list]))
  const sql = `SELECT k."threadListId", k."id", k."symbol", k."hasTally", ${stitches.map((stitch) => `k."${stitch}"`).join(', ')},
      t."threadId", t."strands", t."statedHundredths", t."statedPutUpTenths"
    FROM "KeyLine" k LEFT JOIN "KeyLineThread" t ON t."keyLineId" = k."id"
    ORDER BY k."threadListId", k."position", t."position"`
  const threadFrom = 4 + stitches.length
  let lineId: string | null = null
  let line: KeyLineRow | null = null
  for await (const some of rows(sql)) {
    for (const cells of some) {
      const list = byId.get(text(cells[0]))
      if (!list) continue
      if (lineId !== cells[1] || !line) {
        lineId = text(cells[1])
        line = {
          symbol: textOrNull(cells[2]),
          tally: isTrue(cells[3]) ? tallyOf(cells.slice(4, threadFrom)) : null,
          threads: [],
        }
        list.keyLines.push(line)
      }
      if (cells[threadFrom] === null) continue
      const hundredths = numberOrNull(cells[threadFrom + 2])
      line.threads.push({
        threadId: text(cells[threadFrom]),
        strands: number(cells[threadFrom + 1]),
        stated: hundredths === null ? null : { hundredths, putUpTenths: numberOrNull(cells[threadFrom + 3]) },
      })
    }
  }
}

/** Only the stitches there are any of, as a file's row says them. */
const tallyOf = (cells: Cell[]): StitchTally =>
  Object.fromEntries(stitches.map((stitch, at) => [stitch, number(cells[at])] as const).filter(([, tally]) => tally > 0))
