import { type ChartKind, type CoverKind, chartKinds, coverKinds, type DesignSize } from '#lib/chart/design'
import { type Weave, weaves } from '#lib/cloth/cloth-piece'
import { parseClothSize } from '#lib/quantity/cloth-length'
import { isSquareCount, parseCount } from '#lib/quantity/count'
import { parsePrice } from '#lib/quantity/money'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { type AllowanceChoice, type AllowanceProfile, allowanceProfileNames, isAllowance } from '#lib/thread/allowance'
import { countWithUnit, weaveAlsoMeans, weaveOfCount, weaveOfName } from './check-cloth'
import type { ChartDraft } from './drafts'
import type { RowReader } from './row-reader'

const kindAlsoMeans: Record<string, ChartKind> = {
  book: 'booklet',
  heft: 'booklet',
  livret: 'booklet',
  buch: 'booklet',
  livre: 'booklet',
  sheet: 'leaflet',
  chart: 'leaflet',
  pattern: 'leaflet',
  paper: 'leaflet',
  single: 'leaflet',
  fiche: 'leaflet',
  faltblatt: 'leaflet',
  magazine: 'issue',
  'magazine issue': 'issue',
  zeitschrift: 'issue',
  revue: 'issue',
  pdf: 'file',
  digital: 'file',
  download: 'file',
  datei: 'file',
  fichier: 'file',
  'e chart': 'file',
  karte: 'card',
  carte: 'card',
  packung: 'kit',
  coffret: 'kit',
}

const coverAlsoMeans: Record<string, CoverKind> = {
  band: 'band sampler',
  bands: 'band sampler',
  motif: 'motif sampler',
  motifs: 'motif sampler',
  'spot sampler': 'motif sampler',
  'full coverage': 'full',
}

const allowanceAlsoMeans: Record<string, AllowanceProfile> = {
  solid: 'solid blocks',
  blocks: 'solid blocks',
  usual: 'ordinary',
  normal: 'ordinary',
  'scattered stitches': 'scattered',
  confetti: 'scattered',
}

export function checkChart(row: RowReader): ChartDraft {
  const chart = row.required('chart')
  const cloth = row.text('cloth')
  const weave = row.word('weave', weaves, weaveAlsoMeans) ?? (cloth === null ? null : weaveOfName(cloth))
  return {
    owner: row.required('owner'),
    chart,
    design: row.text('design') ?? chart,
    designers: row.texts('designer'),
    kind: row.word('kind', chartKinds, kindAlsoMeans),
    place: row.text('place'),
    nowAt: row.text('nowAt'),
    copies: row.whole('copies', { least: 1, most: 10_000 }),
    size: readDesignSize(row),
    advised: readAdvised(row, weave),
    weave,
    insists: row.yesNo('insists'),
    cloth,
    seasons: row.texts('season'),
    subjects: row.texts('subject'),
    forms: row.texts('form'),
    cover: row.word('cover', coverKinds, coverAlsoMeans),
    allowance: readAllowance(row),
    edition: row.text('edition'),
    partsHeld: row.whole('partsHeld', { most: 1_000 }),
    partsNeeded: row.whole('partsNeeded', { least: 1, most: 1_000 }),
    boughtOn: row.date('bought'),
    priceMinor: readPrice(row),
    note: row.note(),
  }
}

/** A profile's name, or a factor of the design's own. */
function readAllowance(row: RowReader): AllowanceChoice | null {
  const text = row.text('allowance')
  if (text === null) return null
  const factor = parseNumber(row.decimal(text))
  if (factor === null) {
    const profile = row.word('allowance', allowanceProfileNames, allowanceAlsoMeans)
    return profile && { profile }
  }
  return isAllowance(factor)
    ? { profile: 'own', hundredths: Math.round(factor * 100) }
    : row.refuse('allowance', 'out-of-range', text, ['1', '5'])
}

type Side = { kind: 'stitches'; stitches: number } | { kind: 'measured'; um: number }

const mostStitches = 20_000
const lengthUnit = /(?:mm|cm|m|in|ins|inch|inches|ft|feet|yd|yds|yards?|["”″'])\.?\s*$/iu

/** A bare figure is in the unit of its column, stitches unless the mapping says otherwise. */
function readSide(row: RowReader, field: 'width' | 'height'): Side | null {
  const text = row.text(field)
  if (text === null) return null
  if (isMeasured(row, field, text)) {
    const um = row.clothUm(field)
    return um === null ? null : { kind: 'measured', um }
  }
  const stitches = parseWholeNumber(withoutStitchWords(text))
  if (stitches === null) return row.refuse(field, 'not-a-whole-number', text, ['140', '8 in'])
  if (stitches < 1 || stitches > mostStitches) return row.refuse(field, 'out-of-range', text, ['1', String(mostStitches)])
  return { kind: 'stitches', stitches }
}

const isMeasured = (row: RowReader, field: string, text: string): boolean =>
  lengthUnit.test(text) || ((row.unitOf(field) ?? 'stitches') !== 'stitches' && !/\bst/iu.test(text))

const withoutStitchWords = (text: string): string =>
  text.replace(/\s*(?:stitches|stitch|sts|st|stiche|points|wide|high|tall|[wh])\.?\s*$/iu, '')

function readDesignSize(row: RowReader): DesignSize {
  const width = readSide(row, 'width')
  const height = readSide(row, 'height')
  if (width || height) {
    if (!width || !height) {
      if (row.errors.length === 0) row.refuse(width ? 'height' : 'width', 'half-a-size', '')
      return { kind: 'unknown' }
    }
    if (width.kind === 'stitches' && height.kind === 'stitches')
      return { kind: 'stitches', width: width.stitches, height: height.stitches }
    if (width.kind === 'measured' && height.kind === 'measured')
      return { kind: 'measured', widthUm: width.um, heightUm: height.um }
    row.refuse('height', 'mixed-units', row.text('height') ?? '')
    return { kind: 'unknown' }
  }
  const text = row.text('size')
  return text === null ? { kind: 'unknown' } : (sizeOf(row, text) ?? { kind: 'unknown' })
}

function sizeOf(row: RowReader, text: string): DesignSize | null {
  if (isMeasured(row, 'size', text) || /["”″]|\d\s*(?:in|cm|mm)\b/iu.test(text)) {
    const size = parseClothSize(row.withUnit('size', row.decimal(text)), 'in')
    return size ? { kind: 'measured', ...size } : row.refuse('size', 'not-a-size', text, ['140 x 98', '8 x 6 in'])
  }
  const sides = withoutStitchWords(text)
    .split(/\s*(?:[x×*]|\bby\b)\s*/iu)
    .map((side) => parseWholeNumber(withoutStitchWords(side)))
  const [width, height] = sides
  if (sides.length !== 2 || !width || !height) return row.refuse('size', 'not-a-size', text, ['140 x 98', '8 x 6 in'])
  if (Math.max(width, height) > mostStitches) return row.refuse('size', 'out-of-range', text, ['1', String(mostStitches)])
  return { kind: 'stitches', width, height }
}

/** Without "over": block cloth is worked over one, single threads over two (common practice, no published source). */
function readAdvised(row: RowReader, weave: Weave | null): ChartDraft['advised'] {
  const text = row.text('count')
  if (text === null) return null
  const count = parseCount(countWithUnit(row, row.decimal(text)))
  if (count === null) return row.refuse('count', 'not-a-count', text, ['14', '28 over 2', '110/10cm over 2'])
  if (!isSquareCount(count.ends, count.picks)) row.warn('count', 'count-not-square', text)
  if (count.over !== null) return { count: count.ends, over: count.over }
  const over = (weave ?? weaveOfCount(count.ends)) === 'block' ? 1 : 2
  row.warn('count', 'over-assumed', text, [String(over)])
  return { count: count.ends, over }
}

/** In hundredths of the currency. */
export function readPrice(row: RowReader): number | null {
  const text = row.text('price')
  if (text === null) return null
  return parsePrice(text)?.minor ?? row.refuse('price', 'not-a-price', text, ['3.60', '£3.60', '3,60 €'])
}
