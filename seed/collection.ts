import { textKey } from '#lib/quantity/text-key'
import { adjective, capital, chartTitle, noun, nounWords, personName, placeName } from './collection-words'
import { type Random, seededRandom } from './random'

export const collectionSizes = ['home', 'shop', 'archive'] as const
export type CollectionSize = (typeof collectionSizes)[number]

export type TableRow = Record<string, string | number | boolean | null>

type TableName =
  | 'Owner'
  | 'Place'
  | 'Maker'
  | 'ThreadLine'
  | 'Thread'
  | 'Designer'
  | 'Theme'
  | 'Chart'
  | 'ChartDesigner'
  | 'Design'
  | 'DesignTheme'
  | 'ThreadList'
  | 'KeyLine'
  | 'KeyLineThread'
  | 'Batch'
  | 'ClothPiece'
  | 'Movement'

/** Rows of one table, column names as in the schema; the columns left out have defaults. */
export type TableRows = { table: TableName; rows: TableRow[] }

type SizePlan = {
  charts: number
  threads: number
  clothPieces: number
  designers: number
  drawers: number
  boxes: number
  owners: { name: string; kind: string }[]
  /** Key lines to a chart, shared among its designs; null draws them for each design. */
  keyLinesPerChart: number | null
  chartsInChunk: number
}

export const sizePlans: Record<CollectionSize, SizePlan> = {
  home: {
    ...{ charts: 500, threads: 400, clothPieces: 80, designers: 70, drawers: 14, boxes: 22 },
    ...{ owners: [{ name: 'Hanne Drewitt', kind: 'own' }], keyLinesPerChart: null, chartsInChunk: 500 },
  },
  shop: {
    ...{ charts: 20_000, threads: 3_000, clothPieces: 1_500, designers: 800, drawers: 110, boxes: 500 },
    owners: [
      { name: 'The Oxmarsh Needle Room', kind: 'shop' },
      { name: 'Hanne Drewitt', kind: 'own' },
    ],
    ...{ keyLinesPerChart: null, chartsInChunk: 500 },
  },
  archive: {
    ...{ charts: 200_000, threads: 3_000, clothPieces: 1_500, designers: 4_000, drawers: 110, boxes: 4_000 },
    owners: [
      { name: 'The Oxmarsh Needle Room', kind: 'shop' },
      { name: 'Hanne Drewitt', kind: 'own' },
    ],
    ...{ keyLinesPerChart: 30, chartsInChunk: 250 },
  },
}

/** What movements say until the writer puts in its own revision and moment. */
const movementRevision = 1
const movementAt = '2026-01-05T09:00:00.000+00:00'

type LineKind = {
  maker: string
  name: string
  fibre: string
  strands: number
  putUpStrandTenths: number
  putUpWord: string
  dyeing: 'solid' | 'variegated' | 'overdyed'
  lotsMatter: boolean
  /** Share of all threads. */
  weight: number
  codes: 'padded' | 'plain' | 'names'
}

const skein8m = { strands: 6, putUpStrandTenths: 480_000, putUpWord: 'skein' }
const skein8yd = { strands: 6, putUpStrandTenths: 438_912, putUpWord: 'skein' }
const skein5yd = { strands: 6, putUpStrandTenths: 274_320, putUpWord: 'skein' }
const hank5m = { strands: 12, putUpStrandTenths: 600_000, putUpWord: 'hank' }
const solid = { dyeing: 'solid', lotsMatter: false } as const
const handDyed = { dyeing: 'overdyed', lotsMatter: true } as const

const lineKinds: LineKind[] = [
  { maker: 'Larkholm', name: 'Stranded Cotton', fibre: 'cotton', ...skein8m, ...solid, weight: 20, codes: 'padded' },
  {
    maker: 'Larkholm',
    name: 'Shaded Cotton',
    fibre: 'cotton',
    ...skein8m,
    dyeing: 'variegated',
    lotsMatter: false,
    weight: 3,
    codes: 'plain',
  },
  { maker: 'Stennick Mill', name: 'Soft Cotton', fibre: 'cotton', ...skein8yd, ...solid, weight: 18, codes: 'plain' },
  { maker: 'Oddny Loft', name: 'Hand-dyed Cotton', fibre: 'cotton', ...skein5yd, ...handDyed, weight: 17, codes: 'names' },
  { maker: 'Oddny Loft', name: 'Hand-dyed Silk', fibre: 'silk', ...skein5yd, ...handDyed, weight: 7, codes: 'names' },
  { maker: 'Marrowgate', name: 'Overdyed Cotton', fibre: 'cotton', ...skein8yd, ...handDyed, weight: 10, codes: 'names' },
  {
    maker: 'Brindlequay',
    name: 'Stranded Silk',
    fibre: 'silk',
    ...hank5m,
    dyeing: 'solid',
    lotsMatter: true,
    weight: 12,
    codes: 'plain',
  },
  {
    maker: 'Dunmarrow',
    name: 'Fine Wool',
    fibre: 'wool',
    strands: 1,
    putUpStrandTenths: 274_320,
    putUpWord: 'skein',
    ...solid,
    weight: 6,
    codes: 'padded',
  },
  {
    maker: 'Quillwater',
    name: 'Filament',
    fibre: 'metallic',
    strands: 1,
    putUpStrandTenths: 500_000,
    putUpWord: 'spool',
    ...solid,
    weight: 3,
    codes: 'plain',
  },
  {
    maker: 'Varnaby',
    name: 'Seed Beads',
    fibre: 'glass',
    strands: 1,
    putUpStrandTenths: 60_000,
    putUpWord: 'hank',
    ...solid,
    weight: 4,
    codes: 'plain',
  },
]

type MadeThread = { id: string; line: LineKind; strands: number }

const seasons = [
  'Spring',
  'Easter',
  'Summer',
  'Harvest',
  'Autumn',
  'Advent',
  'Christmas',
  'Midwinter',
  'Winter',
  'Wedding',
  'New baby',
  'New home',
]
const subjects = [
  ...['alphabets', 'animals', 'bees', 'birds', 'boats', 'farming', 'flowers', 'fruit', 'houses', 'insects', 'kitchen', 'maps'],
  ...['night', 'numbers', 'people', 'rivers', 'sea', 'tools', 'town', 'travel', 'trees', 'verse', 'work', 'household'],
]
type Form = { name: string; cover: string; width: [number, number]; height: [number, number] }
const formKinds: (readonly [Form, number])[] = [
  [{ name: 'picture', cover: 'picture', width: [80, 220], height: [80, 200] }, 10],
  [{ name: 'ornament', cover: 'picture', width: [45, 90], height: [45, 90] }, 6],
  [{ name: 'band sampler', cover: 'band sampler', width: [70, 140], height: [180, 380] }, 4],
  [{ name: 'spot sampler', cover: 'motif sampler', width: [110, 220], height: [110, 240] }, 3],
  [{ name: 'house sampler', cover: 'motif sampler', width: [110, 200], height: [120, 220] }, 3],
  [{ name: 'pillow', cover: 'picture', width: [70, 130], height: [60, 110] }, 2],
  [{ name: 'bell pull', cover: 'band sampler', width: [40, 70], height: [200, 340] }, 1],
  [{ name: 'full coverage', cover: 'full', width: [150, 320], height: [130, 300] }, 2],
]
const coverShares: Record<string, number> = { 'band sampler': 0.35, 'motif sampler': 0.275, picture: 0.6, full: 1 }

type Ground = { threads: number; perUm: number; over: number; weave: 'block' | 'single'; name: string }
const perInch = (threads: number, over: number, weave: 'block' | 'single', name: string): Ground => ({
  threads,
  perUm: 25_400,
  over,
  weave,
  name,
})
const groundKinds: (readonly [Ground, number])[] = [
  [perInch(14, 1, 'block', 'Stennick Aida'), 4],
  [perInch(16, 1, 'block', 'Stennick Aida'), 3],
  [perInch(18, 1, 'block', 'Stennick Aida'), 1],
  [perInch(25, 2, 'single', 'Ostravane Evenweave'), 1],
  [perInch(28, 2, 'single', 'Ostravane Evenweave'), 6],
  [{ threads: 110, perUm: 100_000, over: 2, weave: 'single', name: 'Ostravane Evenweave' }, 1],
  [perInch(32, 2, 'single', 'Harrowmere Linen'), 6],
  [perInch(36, 2, 'single', 'Harrowmere Linen'), 3],
  [perInch(40, 2, 'single', 'Harrowmere Linen'), 2],
]
const clothMakers: Record<string, string> = {
  'Stennick Aida': 'Stennick Mill',
  'Ostravane Evenweave': 'Ostravane',
  'Harrowmere Linen': 'Harrowmere Looms',
}
const clothColours = [
  'White',
  'Antique White',
  'Natural',
  'Cream',
  'Oatmeal',
  'Pale Grey',
  'Blue Grey',
  'Parchment',
  'Willow Green',
  'Night Blue',
]

const tenth = (value: number) => Math.round(value * 10) / 10 + 0
const idMaker = (prefix: string) => {
  let made = 0
  return () => `${prefix}${(made++).toString(36).padStart(6, '0')}`
}

/** Call `make` until it gives something not in `taken`, and remember it. */
function distinct(taken: Set<string>, make: () => string): string {
  for (let tried = 0; ; tried++) {
    const text = tried < 20 ? make() : `${make()} ${tried}`
    const key = textKey(text)
    if (taken.has(key)) continue
    taken.add(key)
    return text
  }
}

type PlaceIds = { drawers: string[]; boxes: string[]; shelves: string[] }

function makePlaces(plan: SizePlan, ids: () => string): { rows: TableRow[]; places: PlaceIds } {
  const rows: TableRow[] = []
  const add = (label: string, kind: string, parent: TableRow | null): TableRow => {
    const id = ids()
    const path = `${parent ? parent.path : '/'}${id}/`
    const row = { id, label, labelKey: textKey(label), kind, parentId: parent ? (parent.id as string) : null, path }
    rows.push(row)
    return row
  }
  const room = add('Thread room', 'room', null)
  const library = add('Chart room', 'room', null)
  const cabinet = add('Cabinet T', 'cabinet', room)
  const drawers: string[] = []
  for (let at = 0; at < plan.drawers; at++) {
    drawers.push(add(`T${Math.floor(at / 5) + 1}.${(at % 5) + 1}`, 'drawer', cabinet).id as string)
  }
  const shelves = Array.from(
    { length: Math.ceil(plan.clothPieces / 40) },
    (_, at) => add(`C${at + 1}`, 'shelf', room).id as string,
  )
  const boxes: string[] = []
  let rack: TableRow = library
  for (let at = 0; at < plan.boxes; at++) {
    if (at % 20 === 0) rack = add(`R${at / 20 + 1}`, 'rack', library)
    boxes.push(add(`R${Math.floor(at / 20) + 1}-${(at % 20) + 1}`, 'box', rack).id as string)
  }
  for (let at = 1; at <= 12; at++) add(`K-${String(at).padStart(2, '0')}`, 'bag', room)
  return { rows, places: { drawers, boxes, shelves } }
}

/** Lightness, chroma and hue at random, as CIELAB columns. */
function labColumns(random: Random): { labL: number; labA: number; labB: number } {
  const hue = random.next() * 2 * Math.PI
  const labL = Math.min(96, Math.max(14, random.normal(55, 18)))
  const chroma = Math.max(1, random.normal(28, 14)) * (1 - Math.abs(labL - 55) / 90)
  return { labL: tenth(labL), labA: tenth(chroma * Math.cos(hue)), labB: tenth(chroma * Math.sin(hue)) }
}

function makeThreads(
  random: Random,
  plan: SizePlan,
  lineIds: string[],
  ids: () => string,
): { rows: TableRow[]; threads: MadeThread[] } {
  const rows: TableRow[] = []
  const threads: MadeThread[] = []
  const weightSum = lineKinds.reduce((sum, { weight }) => sum + weight, 0)
  const counts = lineKinds.map(({ weight }) => Math.floor((plan.threads * weight) / weightSum))
  counts[0] = (counts[0] ?? 0) + plan.threads - counts.reduce((sum, one) => sum + one, 0)
  lineKinds.forEach((line, at) => {
    const taken = new Set<string>()
    let number = 0
    for (let made = 0; made < (counts[at] as number); made++) {
      number += random.int(1, 9)
      const name = distinct(taken, () => `${adjective(random)} ${noun(random)}`)
      const code = line.codes === 'names' ? name : line.codes === 'padded' ? String(number).padStart(4, '0') : String(number)
      const id = ids()
      rows.push({ id, lineId: lineIds[at] as string, code, name: line.codes === 'names' ? null : name, ...labColumns(random) })
      threads.push({ id, line, strands: line.strands })
    }
  })
  return { rows, threads }
}

type ChartTables = Record<
  'Chart' | 'ChartDesigner' | 'Design' | 'DesignTheme' | 'ThreadList' | 'KeyLine' | 'KeyLineThread' | 'Movement',
  TableRow[]
>

const emptyChartTables = (): ChartTables => ({
  ...{ Chart: [], ChartDesigner: [], Design: [], DesignTheme: [], ThreadList: [], KeyLine: [], KeyLineThread: [], Movement: [] },
})

const receipt = (
  id: string,
  thing: { batchId?: string; clothPieceId?: string; chartId?: string },
  amount: { wholeDelta: number; partDeltaStrandTenths?: number; toPlaceId: string; toOwnerId: string },
): TableRow => ({
  ...{ id, revision: movementRevision, at: movementAt, kind: 'receive' },
  ...{ batchId: thing.batchId ?? null, clothPieceId: thing.clothPieceId ?? null, chartId: thing.chartId ?? null },
  ...{ wholeDelta: amount.wholeDelta, partDeltaStrandTenths: amount.partDeltaStrandTenths ?? 0 },
  ...{ toPlaceId: amount.toPlaceId, toOwnerId: amount.toOwnerId },
})

const noStitches = {
  ...{ full: 0, half: 0, quarter: 0, threeQuarter: 0, tent: 0, backstitch: 0, backstitchDiagonal: 0, doubleRunning: 0 },
  ...{ knotOneWrap: 0, knotTwoWrap: 0, bead: 0 },
}

type ChartMaking = {
  random: Random
  plan: SizePlan
  ownerIds: string[]
  designerIds: string[]
  themeIds: { season: string[]; subject: string[]; form: Map<string, string> }
  boxes: string[]
  threads: MadeThread[]
  /** Cotton and the like by line, so that a palette mostly keeps to one. */
  threadsByLine: MadeThread[][]
  ids: Record<'chart' | 'design' | 'list' | 'keyLine' | 'keyLineThread' | 'movement', () => string>
}

/** About 70 % of lists count stitches, 18 % state put-ups, the rest say nothing. */
const amountKinds = [
  ['tally', 70],
  ['stated', 18],
  ['none', 12],
] as const

/** Popular threads come up oftener: the lower a thread stands in its line, the likelier. */
const pickSkewed = <T>(random: Random, list: readonly T[]): T => list[Math.floor(list.length * random.next() ** 1.6)] as T

function drawPalette(making: ChartMaking, count: number): MadeThread[] {
  const { random, threads, threadsByLine } = making
  const main = random.weighted<MadeThread[]>([
    [threadsByLine[0] as MadeThread[], 6],
    [threadsByLine[2] as MadeThread[], 2],
    [threadsByLine[3] as MadeThread[], 2],
    [threadsByLine[6] as MadeThread[], 1],
  ])
  const drawn = new Map<string, MadeThread>()
  for (let tried = 0; drawn.size < count && tried < 20 * count; tried++) {
    const thread = random.chance(0.85) ? pickSkewed(random, main) : random.pick(threads)
    drawn.set(thread.id, thread)
  }
  return [...drawn.values()]
}

function addThreadList(
  into: ChartTables,
  making: ChartMaking,
  list: { designId: string; name: string; position: number; keyLineCount: number; stitches: number },
): void {
  const { random, ids } = making
  const threadListId = ids.list()
  into.ThreadList.push({
    id: threadListId,
    designId: list.designId,
    name: list.name,
    nameKey: textKey(list.name),
    position: list.position,
  })
  const amounts = random.weighted(amountKinds)
  const palette = drawPalette(making, list.keyLineCount)
  const weights = palette.map(() => 0.15 + random.next() ** 2)
  const weightSum = weights.reduce((sum, one) => sum + one, 0)
  for (let position = 0; position < list.keyLineCount; position++) {
    const thread = palette[position % palette.length] as MadeThread
    const full = Math.max(1, Math.round((list.stitches * (weights[position % palette.length] as number)) / weightSum))
    const keyLineId = ids.keyLine()
    const hasTally = amounts === 'tally'
    const isOutlined = hasTally && random.chance(0.12)
    into.KeyLine.push({
      ...{ id: keyLineId, threadListId, position, symbol: String.fromCodePoint(0x41 + (position % 26)), hasTally },
      ...noStitches,
      full: hasTally ? full : 0,
      backstitch: isOutlined ? random.int(20, 400) : 0,
      knotOneWrap: isOutlined && random.chance(0.2) ? random.int(3, 40) : 0,
    })
    const isBlend = palette.length > 2 && random.chance(0.03)
    const inNeedle = isBlend ? [thread, palette[(position + 1) % palette.length] as MadeThread] : [thread]
    inNeedle.forEach((one, turn) => {
      const putUps = Math.max(1, Math.ceil(full / 1_800))
      into.KeyLineThread.push({
        ...{ id: ids.keyLineThread(), keyLineId, position: turn, threadId: one.id },
        strands: isBlend ? 1 : Math.min(2, one.strands),
        statedHundredths: amounts === 'stated' ? 100 * putUps : null,
        statedPutUpTenths: amounts === 'stated' ? one.line.putUpStrandTenths / one.line.strands : null,
      })
    })
  }
}

function addChart(into: ChartTables, making: ChartMaking): void {
  const { random, plan, ids, themeIds } = making
  const id = ids.chart()
  const title = chartTitle(random)
  const designCount = random.chance(0.1) ? random.int(2, 6) : 1
  const kind =
    designCount > 1
      ? 'booklet'
      : random.weighted([
          ['leaflet', 12],
          ['card', 3],
          ['file', 3],
          ['issue', 1],
          ['kit', 1],
        ] as const)
  const ownerId = random.chance(0.85) ? (making.ownerIds[0] as string) : random.pick(making.ownerIds)
  const homePlaceId = random.pick(making.boxes)
  const copies =
    kind === 'file'
      ? 1
      : random.weighted([
          [1, 6],
          [2, 2],
          [3, 1],
          [5, 1],
        ] as const)
  const month = String(random.int(1, 12)).padStart(2, '0')
  into.Chart.push({
    ...{ id, title, titleKey: textKey(title), kind, ownerId, copies, partsNeeded: 1, partsHeld: 1 },
    ...{ homePlaceId, currentPlaceId: homePlaceId },
    boughtOn: `${random.int(2009, 2025)}-${month}-${String(random.int(1, 28)).padStart(2, '0')}`,
    priceMinor: 50 * random.int(8, 50),
  })
  into.Movement.push(receipt(ids.movement(), { chartId: id }, { wholeDelta: copies, toPlaceId: homePlaceId, toOwnerId: ownerId }))
  const designers = random.sample(
    [pickSkewed(random, making.designerIds), random.pick(making.designerIds)],
    random.chance(0.04) ? 2 : 1,
  )
  for (const [position, designerId] of [...new Set(designers)].entries())
    into.ChartDesigner.push({ chartId: id, designerId, position })

  const taken = new Set<string>()
  for (let position = 0; position < designCount; position++) {
    const designId = ids.design()
    const designTitle = designCount === 1 ? title : distinct(taken, () => `${adjective(random)} ${noun(random)}`)
    const form = random.weighted(formKinds)
    const ground = random.weighted(groundKinds)
    const widthStitches = random.int(...form.width)
    const heightStitches = random.int(...form.height)
    into.Design.push({
      ...{
        id: designId,
        chartId: id,
        title: designTitle,
        titleKey: textKey(designTitle),
        position,
        widthStitches,
        heightStitches,
      },
      ...{ advisedThreads: ground.threads, advisedPerUm: ground.perUm, advisedOver: ground.over, advisedWeave: ground.weave },
      ...{ insistsOnWeave: random.chance(0.04), advisedCloth: ground.name, coverKind: form.cover },
    })
    const themes = new Set([themeIds.form.get(form.name) as string, random.pick(themeIds.subject)])
    if (random.chance(0.5)) themes.add(random.pick(themeIds.season))
    if (random.chance(0.4)) themes.add(random.pick(themeIds.subject))
    for (const themeId of themes) into.DesignTheme.push({ designId, themeId })

    const share = plan.keyLinesPerChart === null ? null : Math.floor(plan.keyLinesPerChart / designCount)
    const rest = plan.keyLinesPerChart === null ? 0 : plan.keyLinesPerChart % designCount
    const keyLineCount =
      share === null
        ? Math.min(45, Math.max(2, Math.round(form.cover === 'full' ? random.normal(32, 6) : random.normal(12, 5))))
        : share + (position < rest ? 1 : 0)
    const stitches = widthStitches * heightStitches * (coverShares[form.cover] as number)
    addThreadList(into, making, { designId, name: 'Printed list', position: 0, keyLineCount, stitches })
    if (share === null && random.chance(0.06)) {
      addThreadList(into, making, {
        designId,
        name: 'Second list',
        position: 1,
        keyLineCount: Math.max(2, keyLineCount - 3),
        stitches,
      })
    }
  }
}

function makeStock(
  random: Random,
  stock: { threads: MadeThread[]; ownerIds: string[]; drawers: string[] },
  ids: { batch: () => string; movement: () => string },
): { batches: TableRow[]; movements: TableRow[] } {
  const batches: TableRow[] = []
  const movements: TableRow[] = []
  stock.threads.forEach((thread, at) => {
    if (!random.chance(0.6)) return
    const homePlaceId = stock.drawers[Math.floor((at * stock.drawers.length) / stock.threads.length)] as string
    const batchCount = thread.line.lotsMatter ? random.int(1, 2) : random.chance(0.1) ? 2 : 1
    for (let made = 0; made < batchCount; made++) {
      const id = ids.batch()
      const ownerId = random.chance(0.85) ? (stock.ownerIds[0] as string) : random.pick(stock.ownerIds)
      const partCertainty = random.weighted([
        ['none', 70],
        ['guess', 15],
        ['measured', 8],
        ['label', 2],
        ['some', 5],
      ] as const)
      const partShare = partCertainty === 'measured' ? random.int(1, 9) / 10 : random.pick([0.25, 0.5, 0.75])
      const partStrandTenths =
        partCertainty === 'none' || partCertainty === 'some' ? 0 : Math.floor(thread.line.putUpStrandTenths * partShare)
      const wholePutUps = partCertainty === 'none' ? random.int(1, 8) : random.int(0, 4)
      batches.push({
        ...{ id, threadId: thread.id, ownerId, lot: thread.line.lotsMatter ? String(random.int(1, 99)) : null },
        ...{ putUpStrandTenths: thread.line.putUpStrandTenths, wholePutUps, partStrandTenths, partCertainty },
        ...{ homePlaceId, currentPlaceId: homePlaceId },
      })
      const amount = {
        wholeDelta: wholePutUps,
        partDeltaStrandTenths: partStrandTenths,
        toPlaceId: homePlaceId,
        toOwnerId: ownerId,
      }
      movements.push(receipt(ids.movement(), { batchId: id }, amount))
    }
  })
  return { batches, movements }
}

const inchUm = 25_400
const pieceSizes = [
  [18, 27],
  [13, 18],
  [36, 27],
  [36, 55],
  [9, 13],
  [7, 18],
  [11, 8],
] as const

function makeCloth(
  random: Random,
  stock: { clothPieces: number; ownerIds: string[]; shelves: string[] },
  ids: { cloth: () => string; movement: () => string },
): { pieces: TableRow[]; movements: TableRow[] } {
  const pieces: TableRow[] = []
  const movements: TableRow[] = []
  for (let at = 0; at < stock.clothPieces; at++) {
    const id = ids.cloth()
    const ownerId = random.chance(0.85) ? (stock.ownerIds[0] as string) : random.pick(stock.ownerIds)
    const ground = random.weighted(groundKinds)
    const isUneven = ground.name === 'Harrowmere Linen' && random.chance(0.15)
    const [width, height] = random.pick(pieceSizes)
    const isSquared = isUneven || random.chance(0.5)
    const homePlaceId = stock.shelves[Math.floor(at / 40)] as string
    const label = `P${String(at + 1).padStart(4, '0')}`
    pieces.push({
      ...{ id, ownerId, label, labelKey: textKey(label), makerName: clothMakers[ground.name] as string, name: ground.name },
      ...{ colourName: random.pick(clothColours), weave: ground.weave },
      ...{
        endsThreads: ground.threads,
        endsPerUm: ground.perUm,
        picksThreads: ground.threads - (isUneven ? random.int(1, 2) : 0),
        picksPerUm: ground.perUm,
      },
      ...{ widthUm: width * inchUm, heightUm: height * inchUm, isSquared, sizeCertainty: isSquared ? 'measured' : 'label' },
      ...{ isTurnable: !isUneven, homePlaceId, currentPlaceId: homePlaceId },
    })
    movements.push(receipt(ids.movement(), { clothPieceId: id }, { wholeDelta: 1, toPlaceId: homePlaceId, toOwnerId: ownerId }))
  }
  return { pieces, movements }
}

/**
 * A made-up collection of one of the three sizes, as rows for the database in an order that foreign keys accept. Charts come in
 * chunks and are forgotten once taken, so an archive (200,000 charts, 6,000,000 key lines) is never in memory as a whole.
 * The same size and seed give the same rows; ids are short and the same too, so a second collection needs a database of its own.
 *
 * Every batch is the sum of its `receive` movements; movements all carry revision 1 and one moment, for the writer to replace.
 */
export function* makeCollection({ size, seed }: { size: CollectionSize; seed: number }): Generator<TableRows> {
  const plan = sizePlans[size]
  const stream = (part: string) => seededRandom(`${seed} ${size} ${part}`)
  const movementIds = idMaker('mv')

  const ownerIdOf = idMaker('ow')
  const owners = plan.owners.map(({ name, kind }) => ({ id: ownerIdOf(), name, nameKey: textKey(name), kind }))
  const ownerIds = owners.map(({ id }) => id)
  yield { table: 'Owner', rows: owners }

  const { rows: placeRows, places } = makePlaces(plan, idMaker('pl'))
  yield { table: 'Place', rows: placeRows }

  const makerIdOf = idMaker('ma')
  const makers = [...new Set(lineKinds.map(({ maker }) => maker))].map((name) => ({
    id: makerIdOf(),
    name,
    nameKey: textKey(name),
  }))
  yield { table: 'Maker', rows: makers }
  const lineIdOf = idMaker('li')
  const lines = lineKinds.map(({ maker, weight: _weight, codes: _codes, name, ...line }) => ({
    ...{ id: lineIdOf(), makerId: makers.find((one) => one.name === maker)?.id as string, name, nameKey: textKey(name) },
    ...line,
    working: line.dyeing === 'solid' ? 'rows' : 'crosses',
  }))
  yield { table: 'ThreadLine', rows: lines }
  const { rows: threadRows, threads } = makeThreads(
    stream('threads'),
    plan,
    lines.map(({ id }) => id),
    idMaker('th'),
  )
  yield { table: 'Thread', rows: threadRows }

  const designerRandom = stream('designers')
  const designerIdOf = idMaker('ds')
  const designerNames = new Set<string>()
  const designers = Array.from({ length: plan.designers }, () => {
    const name = distinct(designerNames, () =>
      designerRandom.chance(0.75)
        ? personName(designerRandom)
        : `${placeName(designerRandom)} ${designerRandom.pick(['Samplers', 'Press', 'Yard', 'Row', capital(designerRandom.pick(nounWords))])}`,
    )
    return { id: designerIdOf(), name, nameKey: textKey(name) }
  })
  yield { table: 'Designer', rows: designers }

  const themeIdOf = idMaker('tm')
  const themes = (axis: string, names: string[]) => names.map((name) => ({ id: themeIdOf(), axis, name, nameKey: textKey(name) }))
  const seasonThemes = themes('season', seasons)
  const subjectThemes = themes('subject', subjects)
  const formThemes = themes(
    'form',
    formKinds.map(([{ name }]) => name),
  )
  yield { table: 'Theme', rows: [...seasonThemes, ...subjectThemes, ...formThemes] }

  const making: ChartMaking = {
    ...{ random: stream('charts'), plan, ownerIds, boxes: places.boxes, threads },
    designerIds: designers.map(({ id }) => id),
    themeIds: {
      season: seasonThemes.map(({ id }) => id),
      subject: subjectThemes.map(({ id }) => id),
      form: new Map(formThemes.map(({ id, name }) => [name, id])),
    },
    threadsByLine: lineKinds.map((line) => threads.filter((thread) => thread.line === line)),
    ids: {
      ...{ chart: idMaker('ch'), design: idMaker('de'), list: idMaker('tl'), keyLine: idMaker('kl') },
      ...{ keyLineThread: idMaker('kt'), movement: movementIds },
    },
  }
  for (let from = 0; from < plan.charts; from += plan.chartsInChunk) {
    const tables = emptyChartTables()
    for (let at = from; at < Math.min(plan.charts, from + plan.chartsInChunk); at++) addChart(tables, making)
    for (const [table, rows] of Object.entries(tables)) yield { table: table as keyof ChartTables, rows }
  }

  const { batches, movements } = makeStock(
    stream('stock'),
    { threads, ownerIds, drawers: places.drawers },
    { batch: idMaker('ba'), movement: movementIds },
  )
  yield { table: 'Batch', rows: batches }
  yield { table: 'Movement', rows: movements }
  const cloth = makeCloth(
    stream('cloth'),
    { clothPieces: plan.clothPieces, ownerIds, shelves: places.shelves },
    { cloth: idMaker('cl'), movement: movementIds },
  )
  yield { table: 'ClothPiece', rows: cloth.pieces }
  yield { table: 'Movement', rows: cloth.movements }
}
