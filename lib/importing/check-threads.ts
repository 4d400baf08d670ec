import { parseNumber } from '#lib/quantity/number'
import { textKey } from '#lib/quantity/text-key'
import { parseThreadLength } from '#lib/quantity/thread-length'
import { type Dyeing, dyeings } from '#lib/thread/thread'
import type { DraftPart, NamedThread, ThreadDraft } from './drafts'
import type { RowReader } from './row-reader'

const dyeingAlsoMeans: Record<string, Dyeing> = {
  plain: 'solid',
  uni: 'solid',
  einfarbig: 'solid',
  shaded: 'variegated',
  'space dyed': 'variegated',
  meliert: 'variegated',
  degrade: 'variegated',
  'hand dyed': 'overdyed',
  handdyed: 'overdyed',
  'over dyed': 'overdyed',
  handgefarbt: 'overdyed',
  'teint main': 'overdyed',
}

export function checkThread(row: RowReader): ThreadDraft {
  const amount = readAmount(row)
  return {
    owner: row.required('owner'),
    maker: row.required('maker'),
    line: row.text('line'),
    code: row.code('code', row.required('code')),
    name: row.text('name'),
    fibre: row.text('fibre'),
    strands: row.whole('strands', { least: 1, most: 100 }),
    putUpTenths: row.threadTenths('putUp'),
    putUpWord: row.text('putUpWord'),
    dyeing: row.word('dyed', dyeings, dyeingAlsoMeans),
    lotsMatter: row.yesNo('lotsMatter'),
    lot: row.text('lot'),
    ...amount,
    place: row.text('place'),
    nowAt: row.text('nowAt'),
    lab: row.lab('colour'),
    minimumPutUps: row.whole('minimum', { most: 10_000 }),
    standsInFor: readStandsInFor(row),
    note: row.note(),
  }
}

type Amount = Pick<ThreadDraft, 'wholePutUps' | 'part' | 'isHeldUncounted'>

/** 2½ skeins are two whole ones and half a part one; where the amount is said and a part column is blank, there is no part. */
function readAmount(row: RowReader): Amount {
  if (!row.has('skeins') && !row.has('part')) {
    return { wholePutUps: null, part: null, isHeldUncounted: true }
  }
  const part = readPart(row)
  const text = row.text('skeins')
  if (text === null) return { wholePutUps: part && row.has('skeins') ? 0 : null, part, isHeldUncounted: false }
  const skeins = parseNumber(row.decimal(text))
  if (skeins === null) {
    row.refuse('skeins', 'not-a-number', text)
    return { wholePutUps: null, part, isHeldUncounted: false }
  }
  if (skeins < 0 || skeins > 100_000) row.refuse('skeins', 'out-of-range', text, ['0', '100000'])
  const wholePutUps = Math.floor(skeins)
  const hundredths = Math.round((skeins - wholePutUps) * 100)
  if (hundredths === 0) return { wholePutUps, part: part ?? (row.has('part') ? { kind: 'none' } : null), isHeldUncounted: false }
  if (part !== null) row.refuse('part', 'part-given-twice', `${text} + ${row.text('part') ?? ''}`)
  return {
    wholePutUps,
    part: { kind: 'fraction', numerator: hundredths, denominator: 100, certainty: 'guess' },
    isHeldUncounted: false,
  }
}

const some = new Set([
  'some',
  'a bit',
  'a little',
  'bit',
  'part',
  'partial',
  'open',
  'yes',
  'y',
  'x',
  '?',
  'etwas',
  'rest',
  'un peu',
  'reste',
])
const nothing = new Set(['none', 'no', 'n', '0', '-', 'nein', 'non', 'full'])

/**
 * `2.5 m` is as the label or the sheet says, `2.5 m measured` was measured, `about 2.5 m` and any fraction of a skein are a guess, `some`
 * is an amount nobody judged.
 */
function readPart(row: RowReader): DraftPart | null {
  const text = row.text('part')
  if (text === null) return null
  const key = textKey(text)
  if (some.has(key)) return { kind: 'some' }
  if (nothing.has(key)) return { kind: 'none' }

  const isMeasured = /\bmeasured\b/u.test(key)
  const isGuess =
    /^(?:about|approx\.?|approximately|ca\.?|circa|c\.|roughly|around|~|etwa|environ)|\b(?:guess|guessed|approx)\b|\?$/u.test(key)
  const figures = row
    .decimal(text.toLowerCase())
    .replace(
      /measured|about|approximately|approx\.?|circa|ca\.?|roughly|around|etwa|environ|guessed|guess|^c\.|~|\?|[(),]*$/gu,
      '',
    )
    .replace(/\b(?:of a |a )?(?:skein|hank|spool|card|put-?up)s?\b/gu, '')
    .replace(/\b(?:a )?half\b/u, '1/2')
    .replace(/\b(?:a )?quarter\b/u, '1/4')
    .replace(/[\s,]+$/u, '')
    .trim()

  const percent = /^(\d{1,3}) ?%$/u.exec(figures)
  const plain = percent ? Number(percent[1]) / 100 : parseNumber(figures)
  const hasUnit = /\p{L}|["']/u.test(figures)
  // A bare ½ or 1/2 is a fraction of the skein; a bare 2.5 is a length only where the column has a unit.
  if (
    !hasUnit &&
    plain !== null &&
    plain > 0 &&
    plain <= 1 &&
    (percent || /[/½¼¾⅓⅔⅛⅜⅝⅞]/u.test(figures) || row.unitOf('part') === null)
  ) {
    const exact = /^(\d{1,4})\/(\d{1,4})$/u.exec(figures)
    const [numerator, denominator] = exact ? [Number(exact[1]), Number(exact[2])] : [Math.round(plain * 10_000), 10_000]
    return { kind: 'fraction', numerator, denominator, certainty: isMeasured ? 'measured' : 'guess' }
  }
  if (!hasUnit && row.unitOf('part') === null) return row.refuse('part', 'not-a-part', text, acceptedParts)
  const tenths = parseThreadLength(row.withUnit('part', figures), 'm')
  if (tenths === null) return row.refuse('part', 'not-a-part', text, acceptedParts)
  if (tenths === 0) return { kind: 'none' }
  return { kind: 'length', tenths, certainty: isMeasured ? 'measured' : isGuess ? 'guess' : 'label' }
}

const acceptedParts = ['2.5 m', '1/2', 'about 1/2', '2.5 m measured', 'some']

function readStandsInFor(row: RowReader): NamedThread[] {
  return row.texts('standsInFor').flatMap((text) => {
    const parts = text.split('|').map((part) => part.trim())
    const [maker, code] = [parts[0], parts.at(-1)]
    if (parts.length < 2 || parts.length > 3 || !maker || !code) {
      row.refuse('standsInFor', 'not-a-thread', text, ['Maker | Line | Code'])
      return []
    }
    return [{ maker, line: parts.length === 3 ? parts[1] || null : null, code }]
  })
}
