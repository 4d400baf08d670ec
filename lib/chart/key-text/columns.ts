import type { Stitch } from '#lib/thread/stitches'
import type { SourceCell, SourceLine } from '../page-text/page-text'
import type { ColumnRole } from './lesson'
import { nameWords, type PhraseBook, type Vocabulary } from './vocabulary'
import { lengthUnits, lineWords, stitchPhrases } from './words'

/** What a column holds; `thread` is whatever names a thread, read as free text. */
export type Column = {
  role: ColumnRole | 'thread' | 'worked in' | 'note'
  /** Of a column of counts: the stitch counted; null when it does not say. */
  stitch?: Stitch | null
  unit?: 'm' | 'cm' | 'mm' | 'yd' | 'in'
  /** Of a column of codes that is headed by its maker. */
  maker?: string
  threadLine?: string | null
  /** The maker is known by this head alone. */
  isGuess?: true
}

const patterns: [RegExp, Column['role']][] = [
  [
    /^((chart|key|grid|map) )?(symbols?|symb?|signs?|marks?|icons?|letters?)( (no|used|on (the )?chart))?$|^(on|in) (the )?(chart|grid)$|^(chart|grid|key)( (no|nr|number))?$/,
    'symbol',
  ],
  [/\b(strands?|ply|plies|strds?|str|needle threads)\b/, 'strands'],
  [/^(stitch|stitch type|type of stitch|stitch used|use|used for|used in|for|worked in|technique|worked as)$/, 'worked in'],
  [
    /^(stitches|sts|stitch count|stitchs|count|total|total stitches|no of stitches|number of stitches|stitches in all|st count|squares|how many stitches)$/,
    'stitches',
  ],
  [
    /^(length|metres?|meters?|m|yards?|yds?|yd|cm|length (to )?cut|cut|amount m|cut length|thread length)( (m|cm|yds?|in|metres?|yards?|inches|each|per kit|used|needed))*$/,
    'length',
  ],
  [
    /\b(skeins?|skns?|sks?|sk|hanks?|qty|quantity|packs?|packets?|spools?|reels?|needed|amount|cards?|put ups?|tubes?|bobbins?|to buy|how many|units)\b/,
    'put-ups',
  ],
  [/^(maker|brand|make|manufacturer|company|thread maker|made by|from|house)$/, 'maker'],
  [/^(line|range|type|thread type|kind|kind of thread|thread line|fibre|fiber|quality)$/, 'thread line'],
  [
    /^(no|nos|nr|num|number|numbers|code|codes|shades?|shade no|shade number|ref|(maker|brand) ref|our ref|shade (ref|code)|reference|article|art no|colou?r (no|number|code|nr)|col no|thread (no|number|code|nr)|floss (no|number)|maker s? ?(no|number|code)|makers (no|number|code)|(maker|brand) (no|number|code)|cat no|id)$/,
    'code',
  ],
  [/^(colou?rs?|colou?r names?|name|names|description|shade name|thread name|hue|colou?r description|called|col)$/, 'name'],
  [
    /^(threads?|floss|flosses|yarn|thread colou?r|threads? used|thread and colou?r|thread colou?r and number|item|bead|beads)$/,
    'thread',
  ],
  [
    /^(notes?|remarks?|comments?|where|where used|used where|swatch|sample|bar|ticked|done|have|got|tick|have it|in stash|stash)$/,
    'note',
  ],
]

/** What a heading of a column says it holds; null when it says nothing that is known. */
export function columnOf(text: string, known: Vocabulary): Column | null {
  const folded = text.trim()
  if (folded === '' || folded.length > 40) return null
  if (/^(#|№)$/u.test(folded)) return { role: 'code' }
  const words = nameWords(folded)
  const key = words.join(' ')
  if (key === '') return null
  const stitch = stitchOf(words)
  for (const [pattern, role] of patterns) {
    if (!pattern.test(key)) continue
    if (role === 'thread' && /^beads?$/.test(key)) continue
    if (role === 'stitches') return { role, stitch: null }
    if (role === 'length') {
      const unit = words.map((word) => lengthUnits[word]).find((found) => found !== undefined)
      return { role, unit: unit ?? 'm' }
    }
    return role === 'strands'
      ? { role, stitch: stitchOf(words.filter((word) => !/^(strands?|ply|str|no|of|number)$/.test(word))) }
      : { role }
  }
  if (stitch) return { role: 'stitches', stitch }
  const maker = makerHeading(words, known.makerPhrases)
  if (maker) return { role: 'code', maker: maker.maker, threadLine: lineNamed(maker.rest, maker.maker, known) }
  const loose = words.length <= 5 ? looseColumn(key, words) : null
  return loose === null || loose.role === 'code' ? (unknownMakerHeading(folded) ?? loose) : loose
}

/** "Brindlequay ref": a name nobody knows, with numbers below it. */
function unknownMakerHeading(text: string): Column | null {
  const found = /^(\p{Lu}\p{Ll}{3,}(?: \p{Lu}\p{Ll}{2,})?) (?:no|nos|nr|ref|refs|code|codes|number|numbers)\.?$/u.exec(text)
  const name = found?.[1] ?? ''
  const isPlain = nameWords(name).some((word) => lineWords.has(word) || plainHeads.has(word))
  return found && !isPlain ? { role: 'code', maker: name, threadLine: null, isGuess: true } : null
}
const plainHeads = new Set(
  'stitch stitches strand length colour color shade thread threads maker makers brand chart article stock order item part reference catalogue product floss skein dye number list symbol grid batch shop supplier card range'.split(
    ' ',
  ),
)

/** By the one word that tells, where the whole is no heading that is known: "Stitch number", "On the chart", "Name of colour". */
function looseColumn(key: string, words: string[]): Column | null {
  if (/\b(in|on|from) (the )?(chart|grid)\b|\bsymbols?\b/.test(key)) return { role: 'symbol' }
  if (/\b(needle|strands?)\b/.test(key)) return { role: 'strands' }
  if (/\b(metres?|meters?|yards?|yds?|length|cm)\b/.test(key))
    return { role: 'length', unit: words.map((word) => lengthUnits[word]).find((unit) => unit !== undefined) ?? 'm' }
  if (/\b(stitch|stitches|sts|crosses|squares)\b/.test(key)) {
    const stitch = stitchOf(words.filter((word) => !/^(how|many|in|all|of|the|worked|to|work)$/.test(word)))
    return /\b(type|kind|used|which)\b/.test(key)
      ? { role: 'worked in' }
      : { role: 'stitches', stitch: stitch === 'full' ? null : stitch }
  }
  if (/\b(maker|makers|brand|manufacturer|company)\b/.test(key))
    return { role: /\b(no|nr|number|code|ref)\b/.test(key) ? 'code' : 'maker' }
  if (/\b(number|no|nr|code|ref|reference)\b/.test(key)) return { role: 'code' }
  if (/\b(name|called|description|shade|colou?r)\b/.test(key)) return { role: 'name' }
  return /\b(thread|floss|yarn)\b/.test(key) ? { role: 'thread' } : null
}

function stitchOf(words: string[]): Stitch | null {
  const kept = words.filter((word) => !/^(sts|count|units|no|of|number|total|stitches|stitch)$/.test(word))
  for (const trial of [words, kept, words.filter((word) => !/^(count|units|no|of|number|total)$/.test(word))]) {
    const found = (stitchPhrases.get(trial[0] ?? '') ?? []).find(
      (phrase) => phrase.words.length === trial.length && phrase.words.every((word, at) => word === trial[at]),
    )
    if (found) return found.means
  }
  return null
}

/** A maker's name at the start of words, what is left of them being no name. */
function makerHeading(words: string[], makers: PhraseBook<string>): { maker: string; rest: string[] } | null {
  const found = (makers.get(words[0] ?? '') ?? []).find((phrase) => phrase.words.every((word, at) => word === words[at]))
  if (!found) return null
  const rest = words.slice(found.words.length)
  const isPlain = rest.every(
    (word) =>
      lineWords.has(word) ||
      /^(no|nos|nr|num|number|numbers|code|codes|ref|refs|reference|id|colou?r|colou?rs|shade|shades|or|and|s|equivalent|alternative|alt|version|list|palette|hand|over|space)$/.test(
        word,
      ),
  )
  return isPlain ? { maker: found.means, rest } : null
}

/** The line of a maker that words name, or the line words among them, as they are. */
export function lineNamed(words: readonly string[], maker: string, known: Vocabulary): string | null {
  const key = words.filter((word) => lineWords.has(word)).join(' ')
  const lines = known.makers.get(nameWords(maker).join(' '))?.lines
  return lines?.get(words.join(' ')) ?? lines?.get(key) ?? null
}

/** "1 skein" stands in a row, not above it. */
const amountLike = /^(?:\d+|[½¼¾]) ?(?:skeins?|sks?|hanks?|spools?|strands?|reels?|packets?|tubes?)$/iu
const codeLike = /\d{3,}|^\d+$/

/** A row that says what the columns below it hold; null when it is none. */
export function headerOf(line: SourceLine, known: Vocabulary): (Column | null)[] | null {
  const cells = line.cells.filter(({ text }) => text.trim() !== '')
  if (cells.length < 2) return cells.length === 1 ? wordsHeader(line, known) : null
  if (cells.length > 30 || cells.some(({ text }) => text.length > 60)) return null
  const columns = line.cells.map(({ text }) => columnOf(text, known))
  const recognised = columns.filter((column) => column !== null).length
  const kinds = new Set(
    columns.flatMap((column) => (column ? [`${column.role} ${column.maker ?? ''} ${column.stitch ?? ''}`] : [])),
  ).size
  if (cells.some(({ text }) => codeLike.test(text.trim()) || amountLike.test(text.trim()))) return null
  if (!(recognised >= 2 && kinds >= 2 && recognised * 2 >= cells.length)) return null
  return shadesToldApart(
    columns,
    line.cells.map(({ text }) => text),
  )
}

/** A head that is a number's in one key and a name's in another: "Shade". */
export const isEitherHead = (text: string): boolean =>
  /^(the )?(shades?|colou?rs?|col|hue)$/iu.test(text.trim().replace(/[.:]$/u, ''))

/** Beside a column of codes, "Shade" holds names. */
function shadesToldApart(columns: (Column | null)[], heads: readonly string[]): (Column | null)[] {
  const isOther = columns.some((column, at) => column?.role === 'code' && !isEitherHead(heads[at] ?? ''))
  if (!isOther || columns.some((column) => column?.role === 'name')) return columns
  return columns.map((column, at) => (column?.role === 'code' && isEitherHead(heads[at] ?? '') ? { role: 'name' } : column))
}

/** A header whose words are apart by single blanks: it gives the order of what follows on the lines below. */
function wordsHeader(line: SourceLine, known: Vocabulary): Column[] | null {
  const text = line.cells
    .map((cell) => cell.text)
    .join(' ')
    .trim()
  if (text.length > 90 || /[.!?]$|\d|\b(one|two|three|four|single|double)\b/iu.test(text)) return null
  const words = text.split(/\s+/)
  if (words.length < 2 || words.length > 14) return null
  const columns: Column[] = []
  for (let at = 0; at < words.length; ) {
    let taken = 0
    for (let count = Math.min(3, words.length - at); count > 0; count--) {
      const column = columnOf(words.slice(at, at + count).join(' '), known)
      if (!column) continue
      columns.push(column)
      taken = count
      break
    }
    if (taken === 0) return null
    at += taken
  }
  const roles = new Set(columns.map(({ role }) => role))
  const isSure = roles.has('symbol') || roles.size >= 3
  return columns.length >= 2 && isSure && !(roles.size === 1) ? columns : null
}

const isSign = (text: string): boolean => [...text].length <= 2

/** How well what stands in a cell goes with a column: above nought it may, below it hardly does. */
function fits(text: string, column: Column | null): number {
  if (text === '' || /^[-–—]$/.test(text)) return column?.role === 'symbol' ? 0 : 0.2
  const isFigure = /^[\d.,½¼¾⅓⅔ –-]+$/u.test(text)
  switch (column?.role) {
    case 'symbol':
      return isSign(text) ? 2 : text.length <= 6 && !isFigure ? 0 : -3
    case 'code':
      return /\d/.test(text) && text.length <= 14 ? 1.5 : text.length > 30 ? -1 : 0.2
    case 'name':
      return isFigure ? -2 : isSign(text) ? -1 : 1
    case 'strands':
      return /^\d$/.test(text) ? 1.5 : /strand|ply|^\d\s*[+x/]/u.test(text) ? 1.5 : isFigure ? 0 : -1
    case 'stitches':
    case 'backstitch':
      return isFigure ? 1 : /^\d/.test(text) ? 0.5 : -1.5
    case 'put-ups':
    case 'length':
      return isFigure ? 1 : /\d|½|¼|¾/u.test(text) ? 0.7 : -1
    case 'maker':
    case 'thread line':
      return isFigure || isSign(text) ? -2 : 0.8
    default:
      return 0
  }
}

/**
 * The cells of a row, one for each column of the table; cells that were left out where nothing stood are found by what the others hold.
 * O(cells × columns).
 */
export function alignCells(cells: readonly SourceCell[], columns: readonly (Column | null)[]): SourceCell[][] {
  const slots: SourceCell[][] = columns.map(() => [])
  if (cells.length === columns.length) {
    cells.forEach((cell, at) => {
      slots[at]?.push(cell)
    })
    return slots
  }
  // Cells that are wanting at the end are the usual thing.
  if (cells.length < columns.length && cells.every((cell, at) => fits(cell.text, columns[at] ?? null) > -0.5)) {
    cells.forEach((cell, at) => {
      slots[at]?.push(cell)
    })
    return slots
  }
  const [rows, width] = [cells.length, columns.length]
  const best = Array.from({ length: rows + 1 }, () => new Float64Array(width + 1).fill(-1e9))
  const came = Array.from({ length: rows + 1 }, () => new Uint8Array(width + 1))
  ;(best[0] as Float64Array)[0] = 0
  const reach = (row: number, column: number, score: number, by: number) => {
    if (score <= ((best[row] as Float64Array)[column] as number)) return
    ;(best[row] as Float64Array)[column] = score
    ;(came[row] as Uint8Array)[column] = by
  }
  for (let row = 0; row <= rows; row++) {
    for (let column = 0; column <= width; column++) {
      const score = (best[row] as Float64Array)[column] as number
      if (score < -1e8) continue
      if (column < width) reach(row, column + 1, score - 0.1, 1)
      if (row < rows && column < width)
        reach(row + 1, column + 1, score + fits(cells[row]?.text ?? '', columns[column] ?? null), 2)
      // A cell too many belongs to the column before it.
      if (row < rows && column > 0) reach(row + 1, column, score - 1.2, 3)
    }
  }
  let [row, column] = [rows, width]
  while (row > 0 || column > 0) {
    const by = (came[row] as Uint8Array)[column]
    if (by === 1) column -= 1
    else if (by === 2) {
      row -= 1
      column -= 1
      slots[column]?.unshift(cells[row] as SourceCell)
    } else if (by === 3) {
      row -= 1
      slots[column - 1]?.unshift(cells[row] as SourceCell)
    } else break
  }
  return slots
}

/** "Symbol: ●; Colour: 0311 Pine; Strands: two" as cells, with the columns its labels say; null when it is not written so. */
export function labelledCells(line: SourceLine, known: Vocabulary): { cells: SourceCell[]; columns: (Column | null)[] } | null {
  const cells: SourceCell[] = []
  const columns: (Column | null)[] = []
  let labels = 0
  for (const cell of line.cells) {
    if (!cell.text.includes(':')) return null
    for (const part of cell.text.split(/[;|]|,(?= ?\p{L}[\p{L} ]{0,18}:)/u)) {
      const colon = part.indexOf(':', 1)
      const column = colon > 0 && colon < 30 ? columnOf(part.slice(0, colon), known) : null
      if (column) labels += 1
      cells.push({ ...cell, text: (column ? part.slice(colon + 1) : part).trim() })
      columns.push(column)
    }
  }
  return labels >= 2 && cells.length <= 20 ? { cells, columns } : null
}
