import { textKey } from '#lib/quantity/text-key'
import { addChart, type ChartMaking, type ChartTables, emptyChartTables } from './collection/charts'
import { makeCloth } from './collection/cloth'
import { makePlaces } from './collection/places'
import { distinct, idMaker, type SizePlan, type TableRows } from './collection/rows'
import { makeStock } from './collection/stock'
import { formKinds, seasons, subjects } from './collection/themes'
import { lineKinds, makeThreads } from './collection/threads'
import { capital, nounWords, personName, placeName } from './collection/words'
import { seededRandom } from './random'

export const collectionSizes = ['home', 'shop', 'archive'] as const
export type CollectionSize = (typeof collectionSizes)[number]

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
