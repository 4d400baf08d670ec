import 'server-only'
import type { ChartRow, ClothRow, KeyRow, NotionRow, PlaceRow, ProjectRow, ThreadRow } from '#lib/archive/sheet-rows'
import { type StitchTally, stitches } from '#lib/thread/stitches'
import { isTrue, labOfCells, number, numberOrNull, text, textOrNull } from '../cells'
import type { Database } from '../client'
import type { Cell, ReadRows } from '../read-snapshot'

type Rows<Row> = AsyncGenerator<Row[], void, void>
type ThreadName = { lineId: string; code: string; name: string | null }
type LineName = {
  maker: string
  name: string
  fibre: string | null
  strands: number
  putUpTenths: number
  putUpWord: string
  dyeing: string
  lotsMatter: boolean
}

/** Names of what rows speak of by id, read once for all sheets. */
export type SheetNames = {
  owners: Map<string, string>
  /** The owner that a thread of which nothing is held goes by. */
  firstOwner: string
  places: Map<string, string>
  lines: Map<string, LineName>
  threads: Map<string, ThreadName>
  /** Names by chart, in their order. */
  designers: Map<string, string[]>
}

/** In the order of the letters' own numbers, on either engine. */
const ordered = (engine: Database['engine'], ...columns: string[]): string =>
  columns.map((column) => (engine === 'postgresql' ? `${column} COLLATE "C"` : column)).join(', ')

async function gather<Row>(rows: AsyncIterable<Cell[][]>, read: (cells: Cell[]) => Row): Promise<Row[]> {
  const all: Row[] = []
  for await (const some of rows) for (const cells of some) all.push(read(cells))
  return all
}

async function* mapped<Row>(rows: AsyncIterable<Cell[][]>, read: (cells: Cell[]) => Row): Rows<Row> {
  for await (const some of rows) yield some.map(read)
}

export async function readSheetNames(rows: ReadRows, engine: Database['engine']): Promise<SheetNames> {
  const pair = (cells: Cell[]): [string, string] => [text(cells[0]), text(cells[1])]
  const owners = await gather(rows(`SELECT "id", "name" FROM "Owner" ORDER BY ${ordered(engine, '"nameKey"')}`), pair)
  const places = await gather(rows('SELECT "id", "label" FROM "Place"'), pair)
  const lines = await gather(
    rows(`SELECT l."id", m."name", l."name", l."fibre", l."strands", l."putUpStrandTenths", l."putUpWord", l."dyeing", l."lotsMatter"
      FROM "ThreadLine" l JOIN "Maker" m ON m."id" = l."makerId"`),
    ([id, maker, name, fibre, strands, putUp, putUpWord, dyeing, lotsMatter]): [string, LineName] => [
      text(id),
      {
        ...{ maker: text(maker), name: text(name), fibre: textOrNull(fibre), strands: number(strands) },
        putUpTenths: number(putUp) / number(strands),
        ...{ putUpWord: text(putUpWord), dyeing: text(dyeing), lotsMatter: isTrue(lotsMatter) },
      },
    ],
  )
  const threads = await gather(
    rows('SELECT "id", "lineId", "code", "name" FROM "Thread"'),
    ([id, lineId, code, name]): [string, ThreadName] => [
      text(id),
      { lineId: text(lineId), code: text(code), name: textOrNull(name) },
    ],
  )
  const designers = new Map<string, string[]>()
  const named = await gather(
    rows(`SELECT c."chartId", d."name" FROM "ChartDesigner" c JOIN "Designer" d ON d."id" = c."designerId"
      ORDER BY c."position", ${ordered(engine, 'd."nameKey"')}`),
    pair,
  )
  for (const [chartId, name] of named) designers.set(chartId, [...(designers.get(chartId) ?? []), name])
  return {
    ...{ owners: new Map(owners), firstOwner: owners[0]?.[1] ?? '', places: new Map(places) },
    ...{ lines: new Map(lines), threads: new Map(threads), designers },
  }
}

/** Where a thing lives, and where it is when that is elsewhere. */
function whereOf(names: SheetNames, home: Cell | undefined, current: Cell | undefined) {
  const place = names.places.get(text(home)) ?? null
  const here = names.places.get(text(current)) ?? null
  return { place, nowAt: here === place ? null : here }
}

/** Places that stand, each after the one it is in. */
export const readPlaceSheet = (rows: ReadRows, engine: Database['engine']): Rows<PlaceRow> =>
  mapped(
    rows(`SELECT p."label", p."kind", parent."label", p."name", p."walkOrder", p."capacity", p."note"
      FROM "Place" p LEFT JOIN "Place" parent ON parent."id" = p."parentId"
      WHERE p."goneAt" IS NULL AND p."kind" <> 'not found' ORDER BY length(p."path"), ${ordered(engine, 'p."labelKey"')}`),
    ([label, kind, inside, name, walkOrder, capacity, note]) => ({
      ...{ label: text(label), kind: text(kind), inside: textOrNull(inside), name: textOrNull(name) },
      ...{ walkOrder: numberOrNull(walkOrder), capacity: numberOrNull(capacity), note: textOrNull(note) },
    }),
  )

export async function* readThreadSheet(rows: ReadRows, engine: Database['engine'], names: SheetNames): Rows<ThreadRow> {
  const standsInFor = new Map<string, ThreadRow['standsInFor']>()
  for await (const some of rows(
    `SELECT "standInThreadId", "threadId" FROM "StandIn" ORDER BY ${ordered(engine, '"standInThreadId"', '"threadId"')}`,
  ))
    for (const [standIn, threadId] of some) {
      const thread = names.threads.get(text(threadId))
      const line = names.lines.get(thread?.lineId ?? '')
      if (!thread || !line) continue
      const others = standsInFor.get(text(standIn)) ?? []
      standsInFor.set(text(standIn), [...others, { maker: line.maker, line: line.name, code: thread.code }])
    }
  const sql = `SELECT t."id", t."labL", t."labA", t."labB", t."minimumPutUps", t."note", b."ownerId", b."lot", b."putUpWord",
      b."putUpStrandTenths", b."wholePutUps", b."partStrandTenths", b."partCertainty", b."homePlaceId", b."currentPlaceId"
    FROM "Thread" t JOIN "ThreadLine" l ON l."id" = t."lineId" JOIN "Maker" m ON m."id" = l."makerId"
      LEFT JOIN "Batch" b ON b."threadId" = t."id" AND b."goneAt" IS NULL
    WHERE t."goneAt" IS NULL ORDER BY ${ordered(engine, 'm."nameKey"', 'l."nameKey"', 't."code"', 'b."id"')}`
  yield* mapped(rows(sql), (cells) => {
    const id = text(cells[0])
    const thread = names.threads.get(id) as ThreadName
    const line = names.lines.get(thread.lineId) as LineName
    const [ownerId, lot, putUpWord, putUp, whole, part, certainty, home, current] = cells.slice(6)
    const isHeld = textOrNull(ownerId) !== null
    return {
      owner: isHeld ? (names.owners.get(text(ownerId)) ?? '') : names.firstOwner,
      ...{ maker: line.maker, line: line.name, code: thread.code, name: thread.name, fibre: line.fibre, strands: line.strands },
      putUpTenths: isHeld ? number(putUp) / line.strands : line.putUpTenths,
      ...{ putUpWord: textOrNull(putUpWord) ?? line.putUpWord, dyeing: line.dyeing, lotsMatter: line.lotsMatter },
      ...{ lot: textOrNull(lot), wholePutUps: isHeld ? number(whole) : 0 },
      part: isHeld ? partOf(text(certainty), number(part) / line.strands) : { kind: 'none' },
      ...whereOf(names, home, current),
      ...{ lab: labOfCells(cells[1], cells[2], cells[3]), minimum: numberOrNull(cells[4]), note: textOrNull(cells[5]) },
      standsInFor: standsInFor.get(id) ?? [],
    }
  })
}

function partOf(certainty: string, tenths: number): ThreadRow['part'] {
  if (certainty === 'none' || certainty === 'some') return { kind: certainty }
  return { kind: certainty as 'measured' | 'label' | 'guess', tenths }
}

export const readClothSheet = (rows: ReadRows, engine: Database['engine'], names: SheetNames): Rows<ClothRow> =>
  mapped(
    rows(`SELECT "ownerId", "label", "makerName", "name", "weave", "endsThreads", "endsPerUm", "picksThreads", "picksPerUm",
        "countCertainty", "colourName", "dyeing", "widthUm", "heightUm", "isSquared", "isTurnable", "oneWayBecause", "washState",
        "homePlaceId", "currentPlaceId", "labL", "labA", "labB", "priceMinor", "note"
      FROM "ClothPiece" WHERE "goneAt" IS NULL ORDER BY ${ordered(engine, '"name"', '"id"')}`),
    (cells) => ({
      ...{ owner: names.owners.get(text(cells[0])) ?? '', label: textOrNull(cells[1]), maker: textOrNull(cells[2]) },
      ...{ name: text(cells[3]), weave: text(cells[4]), ends: { threads: number(cells[5]), perUm: number(cells[6]) } },
      ...{ picks: { threads: number(cells[7]), perUm: number(cells[8]) }, countCertainty: text(cells[9]) },
      ...{
        colour: textOrNull(cells[10]),
        dyeing: textOrNull(cells[11]),
        widthUm: number(cells[12]),
        heightUm: number(cells[13]),
      },
      ...{ isSquared: isTrue(cells[14]), isTurnable: isTrue(cells[15]), oneWayBecause: textOrNull(cells[16]) },
      ...{
        washState: text(cells[17]),
        ...whereOf(names, cells[18], cells[19]),
        lab: labOfCells(cells[20], cells[21], cells[22]),
      },
      ...{ priceMinor: numberOrNull(cells[23]), note: textOrNull(cells[24]) },
    }),
  )

type Themes = Record<'season' | 'subject' | 'form', string[]>

export async function* readChartSheet(rows: ReadRows, engine: Database['engine'], names: SheetNames): Rows<ChartRow> {
  const themes = new Map<string, Themes>()
  for await (const some of rows(`SELECT d."designId", t."axis", t."name" FROM "DesignTheme" d JOIN "Theme" t ON t."id" = d."themeId"
      ORDER BY ${ordered(engine, 't."nameKey"')}`))
    for (const [designId, axis, name] of some) {
      const own = themes.get(text(designId)) ?? { season: [], subject: [], form: [] }
      own[text(axis) as keyof Themes].push(text(name))
      themes.set(text(designId), own)
    }
  const sql = `SELECT c."id", d."id", c."title", d."title", c."kind", c."ownerId", c."homePlaceId", c."currentPlaceId", c."copies",
      d."widthStitches", d."heightStitches", d."measuredWidthUm", d."measuredHeightUm", d."advisedThreads", d."advisedPerUm",
      d."advisedOver", d."advisedCloth", d."advisedWeave", d."insistsOnWeave", d."coverKind", d."allowanceProfile",
      d."allowanceHundredths", c."edition", c."partsHeld", c."partsNeeded", c."boughtOn", c."priceMinor", c."note"
    FROM "Chart" c JOIN "Design" d ON d."chartId" = c."id"
    WHERE c."goneAt" IS NULL ORDER BY ${ordered(engine, 'c."titleKey"', 'c."id"')}, d."position", ${ordered(engine, 'd."id"')}`
  yield* mapped(rows(sql), (cells) => {
    const own = themes.get(text(cells[1]))
    const profile = textOrNull(cells[20])
    return {
      ...{ chart: text(cells[2]), design: text(cells[3]), designers: names.designers.get(text(cells[0])) ?? [] },
      ...{ kind: text(cells[4]), owner: names.owners.get(text(cells[5])) ?? '', ...whereOf(names, cells[6], cells[7]) },
      ...{ copies: number(cells[8]), size: sizeOf(cells.slice(9, 13)) },
      advised:
        numberOrNull(cells[13]) === null
          ? null
          : { count: { threads: number(cells[13]), perUm: number(cells[14]) }, over: number(cells[15]) },
      ...{ cloth: textOrNull(cells[16]), weave: textOrNull(cells[17]), insists: isTrue(cells[18]), cover: textOrNull(cells[19]) },
      ...{ seasons: own?.season ?? [], subjects: own?.subject ?? [], forms: own?.form ?? [] },
      allowance: profile === 'own' ? numberOrNull(cells[21]) : profile,
      ...{ edition: textOrNull(cells[22]), partsHeld: number(cells[23]), partsNeeded: number(cells[24]) },
      ...{ boughtOn: textOrNull(cells[25]), priceMinor: numberOrNull(cells[26]), note: textOrNull(cells[27]) },
    }
  })
}

function sizeOf([width, height, widthUm, heightUm]: (Cell | undefined)[]): ChartRow['size'] {
  if (numberOrNull(width) !== null) return { stitches: [number(width), number(height)] }
  return numberOrNull(widthUm) === null ? null : { um: [number(widthUm), number(heightUm)] }
}

export async function* readKeySheet(rows: ReadRows, engine: Database['engine'], names: SheetNames): Rows<KeyRow> {
  const sql = `SELECT k."id", c."id", c."title", d."title", t."name", k."symbol", x."threadId", x."strands", x."statedHundredths",
      x."statedPutUpTenths", ${stitches.map((stitch) => `k."${stitch}"`).join(', ')}
    FROM "KeyLine" k JOIN "ThreadList" t ON t."id" = k."threadListId" JOIN "Design" d ON d."id" = t."designId"
      JOIN "Chart" c ON c."id" = d."chartId" JOIN "KeyLineThread" x ON x."keyLineId" = k."id"
    WHERE c."goneAt" IS NULL
    ORDER BY ${ordered(engine, 'c."titleKey"', 'c."id"')}, d."position", ${ordered(engine, 'd."id"')}, t."position",
      ${ordered(engine, 't."id"')}, k."position", x."position"`
  let id = ''
  let row: KeyRow | null = null
  for await (const some of rows(sql)) {
    const whole: KeyRow[] = []
    for (const cells of some) {
      if (text(cells[0]) !== id) {
        if (row) whole.push(row)
        id = text(cells[0])
        const tally: StitchTally = {}
        for (const [at, stitch] of stitches.entries()) if (number(cells[10 + at]) > 0) tally[stitch] = number(cells[10 + at])
        row = {
          ...{ chart: text(cells[2]), design: text(cells[3]), designers: names.designers.get(text(cells[1])) ?? [] },
          ...{ list: text(cells[4]), symbol: textOrNull(cells[5]), threads: [], tally },
        }
      }
      const thread = names.threads.get(text(cells[6])) as ThreadName
      const line = names.lines.get(thread.lineId) as LineName
      row?.threads.push({
        ...{ maker: line.maker, line: line.name, code: thread.code, name: thread.name, strands: number(cells[7]) },
        ...{ statedHundredths: numberOrNull(cells[8]), putUpTenths: numberOrNull(cells[9]) },
      })
    }
    yield whole
  }
  if (row) yield [row]
}

export const readNotionSheet = (rows: ReadRows, engine: Database['engine'], names: SheetNames): Rows<NotionRow> =>
  mapped(
    rows(`SELECT "ownerId", "kind", "name", "size", "count", "minimum", "packOf", "homePlaceId", "currentPlaceId", "priceMinor", "note"
      FROM "Notion" WHERE "goneAt" IS NULL ORDER BY ${ordered(engine, '"kind"', '"name"', '"id"')}`),
    ([ownerId, kind, name, size, count, minimum, packOf, home, current, price, note]) => ({
      ...{ owner: names.owners.get(text(ownerId)) ?? '', kind: text(kind), name: text(name), size: textOrNull(size) },
      ...{ count: number(count), minimum: numberOrNull(minimum), packOf: numberOrNull(packOf), ...whereOf(names, home, current) },
      ...{ priceMinor: numberOrNull(price), note: textOrNull(note) },
    }),
  )

export const readProjectSheet = (rows: ReadRows, engine: Database['engine'], names: SheetNames): Rows<ProjectRow> =>
  mapped(
    rows(`SELECT d."title", c."title", c."id", t."name", p."ownerId", z."label", p."status", p."quantity", p."placeId", p."forWhom",
        p."startedOn", p."finishedOn", p."dueOn", p."hoursTenths", p."stitchesDone", p."finishing", p."note", p."spares"
      FROM "Project" p JOIN "Design" d ON d."id" = p."designId" JOIN "Chart" c ON c."id" = d."chartId"
        LEFT JOIN "ThreadList" t ON t."id" = p."threadListId" LEFT JOIN "ClothPiece" z ON z."id" = p."clothPieceId"
      WHERE p."goneAt" IS NULL ORDER BY ${ordered(engine, 'd."titleKey"', 'p."id"')}`),
    (cells) => ({
      ...{ design: text(cells[0]), chart: text(cells[1]), designers: names.designers.get(text(cells[2])) ?? [] },
      ...{ list: textOrNull(cells[3]), owner: names.owners.get(text(cells[4])) ?? '', cloth: textOrNull(cells[5]) },
      ...{ status: text(cells[6]), quantity: number(cells[7]), place: names.places.get(text(cells[8])) ?? null },
      ...{ forWhom: textOrNull(cells[9]), startedOn: textOrNull(cells[10]), finishedOn: textOrNull(cells[11]) },
      ...{ dueOn: textOrNull(cells[12]), hoursTenths: number(cells[13]), stitchesDone: number(cells[14]) },
      ...{ finishing: textOrNull(cells[15]), note: textOrNull(cells[16]), spares: number(cells[17]) },
    }),
  )
