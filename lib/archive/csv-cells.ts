import type { Lab } from '#lib/colour/lab'
import type { FieldName, ImportKind } from '#lib/importing/fields'
import { stitches } from '#lib/thread/stitches'
import { clothText, countText, priceText, threadText } from './exact-text'
import type { ChartRow, ClothRow, KeyRow, NotionRow, PlaceRow, ProjectRow, ThreadRow } from './sheet-rows'

type Cell = string | number | null
/** Cells by the field that Bring in reads them as; fields left out stay blank. */
type Cells<Kind extends ImportKind> = Partial<Record<FieldName<Kind>, Cell>>

const yesNo = (is: boolean): string => (is ? 'yes' : 'no')
const labCells = (lab: Lab | null) => ({ L: lab?.L ?? null, a: lab?.a ?? null, b: lab?.b ?? null })
const listed = (names: readonly string[]): string => names.join('; ')

export const placeCells = ({ label, kind, inside, name, walkOrder, capacity, note }: PlaceRow): Cells<'places'> => ({
  ...{ label, kind, inside, name, walkOrder, capacity, note },
})

export function threadCells(row: ThreadRow): Cells<'threads'> {
  const { owner, maker, line, code, name, fibre, strands, putUpWord, lot, place, nowAt, minimum, note } = row
  return {
    ...{ owner, maker, line, code, name, fibre, strands, putUp: threadText(row.putUpTenths), putUpWord },
    ...{ dyed: row.dyeing, lotsMatter: yesNo(row.lotsMatter), lot, skeins: row.wholePutUps, part: partText(row.part) },
    ...{ place, nowAt, ...labCells(row.lab), minimum, note },
    standsInFor: listed(row.standsInFor.map((other) => [other.maker, other.line, other.code].join(' | '))),
  }
}

export function partText(part: ThreadRow['part']): string {
  switch (part.kind) {
    case 'none':
      return ''
    case 'some':
      return 'some'
    case 'measured':
      return `${threadText(part.tenths)} measured`
    case 'label':
      return threadText(part.tenths)
    case 'guess':
      return `about ${threadText(part.tenths)}`
  }
}

const washedWords: Record<string, string> = { new: 'no', washed: 'yes', never: 'never' }

export function clothCells(row: ClothRow): Cells<'cloth'> {
  const { owner, label, maker, name, weave, countCertainty, colour, oneWayBecause, place, nowAt, note } = row
  return {
    ...{ owner, label, maker, cloth: name, weave, count: countText(row.ends, row.picks, null) },
    countKnown: countCertainty === 'measured' ? 'counted' : countCertainty,
    ...{ colour, dyeing: row.dyeing, width: clothText(row.widthUm), height: clothText(row.heightUm) },
    ...{ squared: yesNo(row.isSquared), mayTurn: yesNo(row.isTurnable), oneWay: oneWayBecause },
    ...{ washed: washedWords[row.washState] ?? null, place, nowAt, ...labCells(row.lab), note },
  }
}

export function chartCells(row: ChartRow): Cells<'charts'> {
  const { chart, design, kind, owner, place, nowAt, copies, size, advised, cloth, weave, cover, allowance, edition, note } = row
  const sides = size === null ? [null, null] : 'um' in size ? size.um.map(clothText) : size.stitches
  return {
    ...{ chart, design, designer: listed(row.designers), kind, owner, place, nowAt, copies, width: sides[0], height: sides[1] },
    ...{
      count: advised && countText(advised.count, advised.count, advised.over),
      cloth,
      weave,
      insists: row.insists ? 'yes' : null,
    },
    ...{ season: listed(row.seasons), subject: listed(row.subjects), form: listed(row.forms), cover },
    allowance: typeof allowance === 'number' ? allowance / 100 : allowance,
    ...{ edition, partsHeld: row.partsHeld, partsNeeded: row.partsNeeded, bought: row.boughtOn, note },
    price: row.priceMinor === null ? null : priceText(row.priceMinor),
  }
}

/** One value that serves all threads of a blend is written once, several are parted by +. */
function joined(values: readonly (string | number | null)[]): string | null {
  if (values.every((value) => value === null)) return null
  if (values.length === 1) return String(values[0])
  return new Set(values).size === 1 ? String(values[0]) : values.map((value) => value ?? '').join('+')
}

export function keyCells({ chart, design, designers, list, symbol, threads, tally }: KeyRow): Cells<'lists'> {
  const putUps = threads.map(({ putUpTenths }) => putUpTenths)
  const putUp = putUps.find((tenths) => tenths !== null) ?? null
  const cells: Cells<'lists'> = {
    chart,
    design,
    designer: listed(designers),
    list,
    symbol,
    maker: joined(threads.map(({ maker }) => maker)),
    line: joined(threads.map(({ line }) => line)),
    code: threads.map(({ code }) => code).join('+'),
    name: joined(threads.map(({ name }) => name)),
    strands: threads.map(({ strands }) => strands).join('+'),
    skeins: joined(threads.map(({ statedHundredths }) => (statedHundredths === null ? null : statedHundredths / 100))),
    putUp: putUp === null ? null : threadText(putUp),
  }
  // Hundreds of thousands of these are made at once, and one by one is ten times as fast as from entries.
  for (const stitch of stitches) cells[stitch] = tally[stitch] || null
  return cells
}

export function projectCells(row: ProjectRow): Cells<'projects'> {
  const { design, chart, list, owner, cloth, status, place, forWhom, finishing, note } = row
  return {
    ...{ design, chart, list, owner, cloth, status, place, for: forWhom, started: row.startedOn, finished: row.finishedOn },
    ...{ quantity: row.quantity - row.spares, spares: row.spares || null },
    ...{ due: row.dueOn, hours: row.hoursTenths / 10, stitchesDone: row.stitchesDone, finishing, note },
  }
}

export const notionCells = (row: NotionRow): Cells<'notions'> => ({
  ...{ owner: row.owner, kind: row.kind, name: row.name, size: row.size, count: row.count, minimum: row.minimum },
  ...{ packOf: row.packOf, place: row.place, nowAt: row.nowAt, note: row.note },
  price: row.priceMinor === null ? null : priceText(row.priceMinor),
})
