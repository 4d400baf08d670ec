import {
  type ClothDyeing,
  clothDyeings,
  type OneWayReason,
  oneWayReasons,
  type WashState,
  type Weave,
  washStates,
  weaves,
} from '#lib/cloth/cloth-piece'
import { parseClothSize } from '#lib/quantity/cloth-length'
import { type Count, parseCount, perInch } from '#lib/quantity/count'
import { textKey } from '#lib/quantity/text-key'
import type { ClothDraft } from './drafts'
import type { RowReader } from './row-reader'

export const weaveAlsoMeans: Record<string, Weave> = {
  aida: 'block',
  'aida cloth': 'block',
  blocks: 'block',
  linen: 'single',
  leinen: 'single',
  lin: 'single',
  evenweave: 'single',
  'even weave': 'single',
  gleichfadig: 'single',
  'single thread': 'single',
  'single threads': 'single',
}

/** The weave a cloth's name gives away; null when it does not. */
export function weaveOfName(name: string): Weave | null {
  const key = textKey(name)
  if (/aida|\bblock\b/.test(key)) return 'block'
  return /linen|leinen|\blin\b|evenweave|even weave/.test(key) ? 'single' : null
}

/**
 * Block cloth is seldom finer than 20 to the inch and single-thread cloth seldom coarser than 25 (common practice, no published source);
 * between the two, and where a cloth is told by its count alone, 22 is taken as the border.
 */
export const weaveOfCount = (count: Count): Weave => (perInch(count) <= 22 ? 'block' : 'single')

const countKnownAlsoMeans: Record<string, 'measured' | 'label' | 'guess'> = {
  ...{ counted: 'measured', yes: 'measured', ruler: 'measured', gezahlt: 'measured', compte: 'measured' },
  ...{ no: 'label', 'by label': 'label', band: 'label', etikett: 'label', etiquette: 'label' },
  ...{ guessed: 'guess', geschatzt: 'guess', estime: 'guess' },
}

const dyeingAlsoMeans: Record<string, ClothDyeing> = {
  ...{
    'hand dyed': 'hand-dyed',
    'hand dye': 'hand-dyed',
    mottled: 'hand-dyed',
    handgefarbt: 'hand-dyed',
    'teint main': 'hand-dyed',
  },
  ...{ solid: 'dyed', yes: 'dyed', gefarbt: 'dyed', teint: 'dyed' },
  ...{ no: 'plain', none: 'plain', undyed: 'plain', raw: 'plain', bleached: 'plain', ungefarbt: 'plain' },
}

const washedAlsoMeans: Record<string, WashState> = {
  ...{
    yes: 'washed',
    y: 'washed',
    ja: 'washed',
    oui: 'washed',
    prewashed: 'washed',
    'pre washed': 'washed',
    gewaschen: 'washed',
  },
  ...{ no: 'new', n: 'new', nein: 'new', non: 'new', unwashed: 'new', 'not yet': 'new' },
  ...{ 'do not wash': 'never', 'not to be washed': 'never' },
}

const oneWayAlsoMeans: Record<string, OneWayReason> = {
  ...{ 'not square': 'count', uneven: 'count', 'hand dye': 'dye', 'hand dyed': 'dye', 'printed grid': 'grid' },
  ...{ band: 'stripe', bands: 'stripe', stripes: 'stripe', slub: 'slubs', 'drawn thread work': 'drawn work', sheen: 'nap' },
}

export function checkCloth(row: RowReader): ClothDraft {
  const name = row.required('cloth')
  const count = readCount(row)
  const size = readSize(row)
  return {
    owner: row.required('owner'),
    label: row.text('label'),
    maker: row.text('maker'),
    name,
    weave: readWeave(row, name, count.ends),
    ...count,
    countCertainty: row.word('countKnown', ['measured', 'label', 'guess'], countKnownAlsoMeans),
    colour: row.text('colour'),
    dyeing: row.word('dyeing', clothDyeings, dyeingAlsoMeans),
    ...size,
    isSquared: row.yesNo('squared'),
    ...readTurning(row),
    washState: row.word('washed', washStates, washedAlsoMeans),
    place: row.text('place'),
    nowAt: row.text('nowAt'),
    lab: row.lab(null),
    note: row.note(),
  }
}

/** Null when neither said nor plain from the name; what the planner then takes for a new piece is given with the warning. */
function readWeave(row: RowReader, name: string, count: Count): Weave | null {
  const said = row.word('weave', weaves, weaveAlsoMeans)
  if (said) return said
  const named = weaveOfName(name)
  if (named) return named
  if (row.errors.length === 0) row.warn('weave', 'weave-assumed', name, [weaveOfCount(count)])
  return null
}

/** A reason says by itself that it may not be turned; beside a yes it cannot be right. */
function readTurning(row: RowReader): { isTurnable: boolean | null; oneWayBecause: OneWayReason | null } {
  const isTurnable = row.yesNo('mayTurn')
  const oneWayBecause = row.word('oneWay', oneWayReasons, oneWayAlsoMeans)
  if (oneWayBecause !== null && isTurnable) row.refuse('mayTurn', 'unknown-word', row.required('mayTurn'), ['no'])
  return { isTurnable: oneWayBecause === null ? isTurnable : false, oneWayBecause }
}

const anyCount: Count = { threads: 1, perUm: 25_400 }

function readCount(row: RowReader): { ends: Count; picks: Count } {
  const text = row.required('count')
  const count = text === '' ? null : parseCount(countWithUnit(row, text))
  if (text !== '' && count === null) row.refuse('count', 'not-a-count', text, ['28', '34 x 31', '110/10cm'])
  return { ends: count?.ends ?? anyCount, picks: count?.picks ?? anyCount }
}

export function countWithUnit(row: RowReader, text: string): string {
  const unit = row.unitOf('count')
  const hasUnit = /cm|in|ct|count|tpi|dm|"/iu.test(text.replace(/linen|single|\bover\b/giu, ''))
  if (hasUnit || unit === null || unit === 'per inch') return text
  const [figures, over] = text.split(/(?=\bover\b)/iu)
  return `${(figures ?? '').trim()} ${unit} ${over ?? ''}`.trim()
}

function readSize(row: RowReader): { widthUm: number; heightUm: number } {
  const width = row.clothUm('width')
  const height = row.clothUm('height')
  if (width !== null && height !== null) return { widthUm: width, heightUm: height }
  const text = row.text('size')
  if (text !== null && width === null && height === null) {
    const size = parseClothSize(row.withUnit('size', row.decimal(text)), 'in')
    if (size) return size
    row.refuse('size', 'not-a-size', text, ['18 x 27 in', '45 x 70 cm'])
  } else {
    if (width === null) row.required('width')
    if (height === null) row.required('height')
  }
  return { widthUm: 1, heightUm: 1 }
}
