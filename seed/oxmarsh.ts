import { mkdirSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { listSampleCharts } from './sample/charts'
import { clothColumns, listClothRows } from './sample/cloth'
import { csvText, type SampleRow } from './sample/csv'
import { listNotionRows, notionColumns } from './sample/notions'
import { listPlaceRows, placeColumns, shop } from './sample/places'
import { listGathered, listKits, listProjectRows, projectColumns } from './sample/projects'
import type { SampleChart } from './sample/sample-chart'
import { gather, listSampleBatches, type SampleBatch, takeOut } from './sample/stock'
import { listSampleThreads, type SampleThread } from './sample/threads'
import { listWorkRows, workColumns } from './sample/work'

const chartColumns = [
  ...([
    'Chart',
    'Design',
    'Designer',
    'Kind',
    'Owner',
    'Place',
    'Now at',
    'Copies',
    'Width',
    'Height',
    'Count',
    'Cloth',
  ] as const),
  ...(['Weave', 'Insists', 'Season', 'Subject', 'Form', 'Cover', 'Edition', 'Parts held', 'Parts needed'] as const),
  ...(['Bought', 'Price', 'Note'] as const),
] as const

const listColumns = [
  ...([
    'Chart',
    'Design',
    'Designer',
    'List',
    'Symbol',
    'Maker',
    'Line',
    'Code',
    'Name',
    'Strands',
    'Full',
    'Half',
    'Quarter',
  ] as const),
  ...(['Three-quarter', 'Backstitch', 'Knots (one wrap)', 'Beads', 'Skeins', 'Put-up'] as const),
] as const

const threadColumns = [
  ...(['Owner', 'Maker', 'Line', 'Code', 'Name', 'Fibre', 'Strands', 'Put-up', 'Put-up word', 'Dyed', 'Lots matter'] as const),
  ...(['Lot', 'Skeins', 'Part', 'Place', 'Now at', 'L', 'a', 'b', 'Minimum', 'Stands in for', 'Note'] as const),
] as const

const chartRows = (charts: SampleChart[]): SampleRow<(typeof chartColumns)[number]>[] =>
  charts.flatMap((chart) =>
    chart.designs.map((design) => ({
      ...{ Chart: chart.title, Design: design.title, Designer: chart.designer, Kind: chart.kind, Owner: chart.owner },
      ...{ Place: chart.place, 'Now at': chart.nowAt, Copies: chart.copies, Width: design.width, Height: design.height },
      ...{ Count: design.count, Cloth: design.cloth, Weave: design.weave, Insists: design.insists ? 'yes' : undefined },
      ...{ Season: design.season, Subject: design.subject, Form: design.form, Cover: design.cover, Edition: chart.edition },
      ...{ 'Parts held': chart.partsHeld, 'Parts needed': chart.partsNeeded, Bought: chart.bought, Price: chart.price },
      Note: chart.note,
    })),
  )

/** Cells of a blend are joined by "+"; one figure that serves all its threads is written once. */
function joined(values: (string | number)[]): string {
  return new Set(values).size === 1 ? String(values[0]) : values.join('+')
}

const listRows = (charts: SampleChart[]): SampleRow<(typeof listColumns)[number]>[] =>
  charts.flatMap((chart) =>
    chart.designs.flatMap((design) =>
      design.lists.flatMap((list) =>
        list.keyLines.map(({ symbol, threads, tally, skeins, putUp }) => ({
          ...{ Chart: chart.title, Design: design.title, Designer: chart.designer, List: list.name, Symbol: symbol },
          Maker: joined(threads.map(({ thread }) => thread.line.maker)),
          Line: joined(threads.map(({ thread }) => thread.line.line)),
          Code: threads.map(({ thread }) => thread.code).join('+'),
          Name: threads.length === 1 ? threads[0]?.thread.name : undefined,
          Strands: threads.map(({ strands }) => strands).join('+'),
          ...tally,
          ...{ Skeins: skeins, 'Put-up': putUp },
        })),
      ),
    ),
  )

function threadRows(threads: SampleThread[], batches: SampleBatch[]): SampleRow<(typeof threadColumns)[number]>[] {
  return threads.flatMap((thread) => {
    const { line, code, name, lab } = thread
    const known = {
      ...{ Maker: line.maker, Line: line.line, Code: code, Name: name, Fibre: line.fibre, Strands: line.strands },
      ...{ 'Put-up': line.putUp, 'Put-up word': line.putUpWord, Dyed: line.dyed, 'Lots matter': line.lotsMatter ? 'yes' : 'no' },
      ...{ L: lab[0], a: lab[1], b: lab[2] },
    }
    const held = batches.filter((batch) => batch.thread === thread)
    if (held.length === 0) return [{ ...known, Owner: shop, Skeins: 0 }]
    return held.map(({ owner, lot, skeins, part, place, nowAt, minimum, standsInFor, note }) => ({
      ...known,
      ...{ Owner: owner, Lot: lot, Skeins: skeins, Part: part, Place: place, 'Now at': nowAt, Minimum: minimum },
      ...{ 'Stands in for': standsInFor, Note: note },
    }))
  })
}

/** The files of the sample collection, by file name; the same text every time. */
export function makeOxmarshFiles(): Record<string, string> {
  const threads = listSampleThreads()
  const charts = listSampleCharts(threads)
  const batches = listSampleBatches(threads)
  for (const design of listGathered(charts)) gather(batches, design)
  for (const kit of listKits(charts)) takeOut(batches, kit)
  return {
    'places.csv': csvText(placeColumns, listPlaceRows()),
    'threads.csv': csvText(threadColumns, threadRows(threads, batches)),
    'cloth.csv': csvText(clothColumns, listClothRows()),
    'charts.csv': csvText(chartColumns, chartRows(charts)),
    'lists.csv': csvText(listColumns, listRows(charts)),
    'projects.csv': csvText(projectColumns, listProjectRows(charts)),
    'notions.csv': csvText(notionColumns, listNotionRows()),
    'work.csv': csvText(workColumns, listWorkRows()),
  }
}

if (process.argv[1] === import.meta.filename) {
  const folder = fileURLToPath(new URL('./oxmarsh/', import.meta.url))
  mkdirSync(folder, { recursive: true })
  for (const [name, text] of Object.entries(makeOxmarshFiles())) {
    writeFileSync(folder + name, text)
    console.log(`${name}: ${text.split('\n').length - 2} rows`)
  }
}
