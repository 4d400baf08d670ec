import { createHash } from 'node:crypto'
import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import { type CutObjective, cutObjectives } from '#lib/cloth/cut-plan'
import { listFinishings, type Margins, marginsFor } from '#lib/cloth/margins'
import {
  type AskedCut,
  type AskedWish,
  type CutPriority,
  cutPriorities,
  mostCopies,
  mostCutPieces,
  mostWishes,
  mostWorth,
  widestCutMarginUm,
} from '#lib/coverage/asked-cut'
import type { CutSources } from '#lib/db/cut-plan/read-cut-sources'
import { type LengthUnit, parseClothLength, parseClothSize } from '#lib/quantity/cloth-length'
import type { Settings } from '#lib/settings/settings'

/** What a row is cut for. */
export type RowFor = { kind: 'design' | 'project'; id: string } | { kind: 'size' }

/** One thing to cut, as it stands in the form: texts as typed, empty ones meaning what is usual. */
export type Row = {
  /** Its number in the form; a row keeps it while others come and go. */
  at: number
  for: RowFor
  copies: string
  size: string
  mayTurn: boolean
  finishing: string
  margin: string
  over: '' | '1' | '2'
  cloth: '' | 'advised' | 'any'
  priority: CutPriority
  worth: string
}

/** The form of a plan of cuts, all of which stands in its address. */
export type CutForm = {
  rows: Row[]
  /** Ticked pieces; null follows what is suggested. */
  pieceIds: string[] | null
  objective: CutObjective
  gap: string
  least: string
  seed: string
  seconds: number
  /** Words to find designs by. */
  q: string
  /** A size to be added that does not read. */
  sizeNotRead: string
  /** Something had to be put right when the search was to begin. */
  wasTried: boolean
  wasBusy: boolean
}

export type Fields = Record<string, string | string[] | undefined>

export const limits = [5, 20, 60, 300] as const
const usualSeconds = 20

const most = 300
const texts = (fields: Fields, name: string): string[] =>
  [fields[name] ?? []]
    .flat()
    .slice(0, 100)
    .map((text) => text.trim().slice(0, most))
const textOf = (fields: Fields, name: string): string => texts(fields, name).at(-1) ?? ''
const oneOf = <Value extends string>(text: string, values: readonly Value[], otherwise: Value): Value =>
  values.find((value) => value === text) ?? otherwise

const keyOf = (of: RowFor): string => (of.kind === 'size' ? 'size' : `${of.kind}-${of.id}`)

function rowForKey(key: string): RowFor | null {
  if (key === 'size') return { kind: 'size' }
  const [, kind, id] = /^(design|project)-(.{1,64})$/.exec(key) ?? []
  return kind && id ? { kind: kind as 'design' | 'project', id } : null
}

const newRow = (at: number, of: RowFor, size = ''): Row => ({
  ...{
    at,
    for: of,
    size,
    copies: '',
    mayTurn: true,
    finishing: '',
    margin: '',
    over: '',
    cloth: '',
    priority: 'wanted',
    worth: '',
  },
})

/** A short stand-in for a set of pieces, to see whether the ticks are still those that were suggested. */
export const piecesMark = (ids: readonly string[]): string =>
  createHash('sha256')
    .update([...ids].sort().join(' '))
    .digest('hex')
    .slice(0, 12)

/** Read the form from its address, or from what was sent; what does not read is left out, or kept as typed to be put right. */
export function readCutForm(fields: Fields, unit: LengthUnit): CutForm {
  const dropped = new Set(texts(fields, 'drop'))
  const rows: Row[] = []
  for (const name of Object.keys(fields)) {
    const at = /^w(\d{1,3})$/.exec(name)?.[1]
    const of = at === undefined || dropped.has(at) ? null : rowForKey(textOf(fields, name))
    if (at === undefined || of === null) continue
    const field = (letter: string) => textOf(fields, `${letter}${at}`)
    rows.push({
      ...newRow(Number(at), of, field('z')),
      copies: field('n'),
      // A tick that was taken off is not sent; the mark beside it says that there was one.
      mayTurn: field('g') !== '1' || field('t') === '1',
      finishing: field('f'),
      margin: field('m'),
      over: oneOf(field('o'), ['', '1', '2'], ''),
      cloth: oneOf(field('c'), ['', 'advised', 'any'], ''),
      priority: oneOf(field('p'), cutPriorities, 'wanted'),
      worth: field('v'),
    })
  }
  rows.sort((a, b) => a.at - b.at)
  const add = (of: RowFor, size = '') => {
    const isThere = of.kind !== 'size' && rows.some((row) => keyOf(row.for) === keyOf(of))
    if (!isThere && rows.length < mostWishes) rows.push(newRow((rows.at(-1)?.at ?? 0) + 1, of, size))
  }
  for (const kind of ['design', 'project'] as const)
    for (const id of texts(fields, kind)) if (id !== '' && id.length <= 64) add({ kind, id })
  const sizes = texts(fields, 'size').filter((size) => size !== '')
  const isSize = (size: string) => parseClothSize(size, unit) !== null
  for (const size of sizes) if (isSize(size)) add({ kind: 'size' }, size)

  const ticked = [...new Set(texts(fields, 'piece').filter((id) => id !== '' && id.length <= 64))].slice(0, mostCutPieces)
  const taken = textOf(fields, 'taken')
  const isOwnChoice = textOf(fields, 'suggest') === '1' ? false : taken === '' ? ticked.length > 0 : taken !== piecesMark(ticked)
  return {
    rows,
    pieceIds: isOwnChoice ? ticked : null,
    objective: oneOf(textOf(fields, 'objective'), cutObjectives, 'largest offcut'),
    gap: textOf(fields, 'gap'),
    least: textOf(fields, 'least'),
    seed: textOf(fields, 'seed'),
    seconds: limits.find((seconds) => String(seconds) === textOf(fields, 'limit')) ?? usualSeconds,
    q: textOf(fields, 'q'),
    sizeNotRead: sizes.find((size) => !isSize(size)) ?? '',
    wasTried: textOf(fields, 'tried') === '1',
    wasBusy: textOf(fields, 'busy') === '1',
  }
}

/** The form as a query, for links and to begin again. */
export function cutQuery(form: CutForm): string {
  const query = new URLSearchParams()
  const put = (name: string, value: string) => value !== '' && query.append(name, value)
  for (const row of form.rows) {
    const { at } = row
    query.append(`w${at}`, keyOf(row.for))
    put(`n${at}`, row.copies)
    put(`z${at}`, row.size)
    if (row.for.kind === 'size') put(`g${at}`, '1')
    if (row.for.kind === 'size' && row.mayTurn) put(`t${at}`, '1')
    put(`f${at}`, row.finishing)
    put(`m${at}`, row.margin)
    put(`o${at}`, row.over)
    put(`c${at}`, row.cloth)
    if (row.priority !== 'wanted') put(`p${at}`, row.priority)
    put(`v${at}`, row.worth)
  }
  for (const id of form.pieceIds ?? []) query.append('piece', id)
  if (form.pieceIds?.length === 0) query.append('taken', 'none')
  query.append('objective', form.objective)
  for (const name of ['gap', 'least', 'seed'] as const) put(name, form[name])
  query.append('limit', String(form.seconds))
  return query.toString()
}

/** The ids of designs and projects the rows are for. */
export const sourceIds = ({ rows }: CutForm) => ({
  designIds: rows.flatMap(({ for: of }) => (of.kind === 'design' ? [of.id] : [])),
  projectIds: rows.flatMap(({ for: of }) => (of.kind === 'project' ? [of.id] : [])),
})

/** What stands in a field that nobody filled in. */
export type Usual = { copies: number; finishing: string; over: '' | '1' | '2'; cloth: 'advised' | 'any' }

/**
 * What is usual for a row: a project's own number of kits, its spares among them, and its own finishing; on the cloth the
 * chart advises, unless a person named the pieces to cut from.
 */
export function usualFor({ for: of }: Row, form: CutForm, sources: CutSources, settings: Settings): Usual {
  const project = of.kind === 'project' ? sources.projects.get(of.id) : undefined
  const named = listFinishings(settings).find(({ name }) => name === project?.finishing?.toLowerCase())
  const over = project?.over ? (String(project.over) as '1' | '2') : ''
  return {
    copies: project?.quantity ?? 1,
    finishing: named?.name ?? settings.finishing,
    over,
    cloth: form.pieceIds === null ? 'advised' : 'any',
  }
}

const wholeText = (text: string, most: number): number | null => {
  const value = /^\d{1,9}$/.test(text) ? Number(text) : 0
  return value >= 1 && value <= most ? value : null
}

/** One margin all round, or four: left, right, top, bottom. */
export function readMargins(text: string, unit: LengthUnit): Margins | null {
  const parts = text.split(/\s*;\s*|\s*,\s+/)
  const last = parts.at(-1) ?? ''
  const unitOf = /[a-z"']+\.?$/i.exec(last)?.[0] ?? ''
  const sides = parts.map((part) => parseClothLength(/[a-z"']\.?$/i.test(part) ? part : `${part} ${unitOf}`, unit))
  if (sides.some((side) => side === null || side > widestCutMarginUm)) return null
  const [left, right, top, bottom] = sides as number[]
  if (left === undefined) return null
  if (sides.length === 1) return { leftUm: left, rightUm: left, topUm: left, bottomUm: left }
  if (sides.length !== 4) return null
  return { leftUm: left, rightUm: right as number, topUm: top as number, bottomUm: bottom as number }
}

/** What is wrong, by the name of the field. */
export type CutProblems = ReadonlyMap<string, string>

const example = (unit: LengthUnit) => (unit === 'in' ? '2 in' : '5 cm')

/** The wish of a row; what is wrong with it is put among the problems. */
function wishOf(
  row: Row,
  usual: Usual,
  problems: Map<string, string>,
  sources: CutSources,
  settings: Settings,
): AskedWish | null {
  const { at, for: of, priority } = row
  const unit = settings.lengthUnit
  const before = problems.size
  const note = <Value>(name: string, value: Value | null, message: string): Value | null => {
    if (value === null) problems.set(`${name}${at}`, message)
    return value
  }
  const copies = note(
    'n',
    row.copies === '' ? usual.copies : wholeText(row.copies, mostCopies),
    say('A whole number, 1 to {mostCopies}.', { mostCopies }),
  )
  const worth = note(
    'v',
    row.worth === '' ? 1 : wholeText(row.worth, mostWorth),
    say('A whole number, 1 to {mostWorth}.', { mostWorth }),
  )
  if (of.kind === 'size') {
    const size = note(
      'z',
      parseClothSize(row.size, unit),
      say('Give both sides, width first: {isIn, select, yes {11 x 11 in} other {28 x 28 cm}}.', { isIn: unit === 'in' }),
    )
    if (!copies || !worth || !size) return null
    return { kind: 'size', ...size, mayTurn: row.mayTurn, copies, priority, worth }
  }
  const ofTable = marginsFor(settings, row.finishing === '' ? usual.finishing : row.finishing)
  const margins = note(
    'm',
    row.margin === '' ? ofTable : readMargins(row.margin, unit),
    say('One length all round, {example}, or four: left, right, top, bottom.', { example: example(unit) }),
  )
  const project = of.kind === 'project' ? sources.projects.get(of.id) : null
  const designId = of.kind === 'project' ? project?.designId : of.id
  if (project === undefined || !sources.designs.has(designId ?? ''))
    problems.set(`w${at}`, say('It is not there any more. Take it off.'))
  if (problems.size > before || !copies || !worth || !margins || !designId) return null
  const over = row.over === '' ? usual.over : row.over
  return {
    ...{ kind: 'design', designId, projectId: project?.id ?? null, over: over === '' ? null : over === '1' ? 1 : 2 },
    ...{ margins, cloth: row.cloth === '' ? usual.cloth : row.cloth, copies, priority, worth },
  }
}

/** What the form asks for; `asked` is null while something does not read, or there is nothing to cut. */
export function askedOf(
  form: CutForm,
  sources: CutSources,
  settings: Settings,
): { asked: AskedCut | null; problems: CutProblems } {
  const unit = settings.lengthUnit
  const problems = new Map<string, string>()
  const wishes = form.rows.flatMap(
    (row) => wishOf(row, usualFor(row, form, sources, settings), problems, sources, settings) ?? [],
  )
  const copies = wishes.reduce((sum, wish) => sum + wish.copies, 0)
  const lastRow = form.rows.at(-1)
  if (copies > mostCopies && lastRow)
    problems.set(
      `n${lastRow.at}`,
      say('That is {copies} cuts in all; a plan takes up to {mostCopies}. Make two plans of it.', { copies, mostCopies }),
    )
  const length = (name: 'gap' | 'least', usualUm: number, mostUm: number) => {
    const um = form[name] === '' ? usualUm : parseClothLength(form[name], unit)
    if (um !== null && um <= mostUm) return um
    problems.set(name, say('A length up to {most}.', { most: formatClothLength(mostUm, unit) }))
    return 0
  }
  const gapUm = length('gap', settings.cutGapUm, 50_000)
  const leastOffcutUm = length('least', settings.leastOffcutUm, 1_000_000)
  const seed = form.seed === '' ? 1 : wholeText(form.seed, 1_000_000_000)
  if (seed === null) problems.set('seed', say('A whole number.'))
  if (problems.size > 0 || wishes.length === 0 || seed === null) return { asked: null, problems }
  return { asked: { wishes, pieceIds: form.pieceIds, objective: form.objective, gapUm, leastOffcutUm, seed }, problems }
}
