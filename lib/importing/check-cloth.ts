import { type Weave, weaves } from '#lib/cloth/cloth-piece'
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
    colour: row.text('colour'),
    ...size,
    isSquared: row.yesNo('squared'),
    isTurnable: row.yesNo('mayTurn'),
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
