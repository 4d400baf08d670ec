import { z } from 'zod'
import type { LabelChoice } from '#lib/db/label/list-label-things'
import { type LabelNoun, labelNouns } from '#lib/label/label'
import type { LabelStock } from '#lib/printing/label-pages'
import {
  checkLabelSheet,
  type LabelSheetRefusal,
  labelSheets,
  mostColumns,
  mostRows,
  tapeHeightsMm,
} from '#lib/printing/label-sheets'
import { parseClothLength } from '#lib/quantity/cloth-length'
import { ok, type Result, refused } from '#lib/result'

/** A box left empty, or a parameter given twice, is no choice. */
const choice = (longest: number) => z.string().trim().min(1).max(longest).nullable().catch(null).default(null)
const tick = z.literal('1').nullable().catch(null).default(null)
const typed = (text: string) => z.string().trim().min(1).max(20).catch(text).default(text)

/** The choices of the page of labels as they stand in an address. */
const labelsQuerySchema = z.object({
  place: choice(64),
  what: z.preprocess((value) => [value ?? []].flat(), z.array(z.enum(labelNouns))).catch([]),
  /** One thing alone: "chart.0192…" */
  one: choice(80),
  /** What was chosen of a list: lib/db/listing/keep-chosen.ts. */
  chosen: choice(64),
  which: z.enum(['changed', 'all']).nullable().catch(null).default(null),
  onto: choice(40),
  start: z.coerce.number().int().min(1).max(2_000).catch(1),
  base: choice(200),
  trial: tick,
  paper: z.enum(['a4', 'letter']).catch('a4'),
  columns: typed('3'),
  rows: typed('8'),
  width: typed('70'),
  height: typed('37'),
  left: typed('0'),
  top: typed('0.5'),
  gapX: typed('0'),
  gapY: typed('0'),
})
export type LabelsQuery = z.infer<typeof labelsQuerySchema>

export const readLabelsQuery = (parameters: Record<string, unknown>): LabelsQuery => labelsQuerySchema.parse(parameters)

/** The parameters of an address, as a page is handed them: those given more than once as a list. */
export const parametersOf = (search: URLSearchParams): Record<string, unknown> =>
  Object.fromEntries(
    [...new Set(search.keys())]
      .map((name) => [name, search.getAll(name)])
      .map(([name, all]) => [name, all?.length === 1 ? all[0] : all]),
  )

/** The one thing that is asked for, or null. */
function oneOf({ one }: LabelsQuery): { noun: LabelNoun; id: string } | null {
  const [noun, id] = one?.split('.') ?? []
  const known = labelNouns.find((each) => each === noun)
  return known && id ? { noun: known, id } : null
}

/** What is to be labelled: places, unless other kinds were ticked. */
export function choiceOf(query: LabelsQuery): LabelChoice {
  const one = oneOf(query)
  if (one) return { kind: 'one', ...one }
  return { kind: 'in-place', placeId: query.place, nouns: query.what.length > 0 ? query.what : ['place'] }
}

/** One thing is printed when it is asked for; of many, what changed. */
export const whichOf = (query: LabelsQuery): 'changed' | 'all' => query.which ?? (oneOf(query) ? 'all' : 'changed')

export const ownSheet = 'own'
export const ontoOf = ({ onto }: LabelsQuery): string => onto ?? 'a4-3x8'

export type StockRefusal =
  | LabelSheetRefusal
  | { kind: 'no-such-stock' }
  | { kind: 'not-read'; field: OwnField }
  | { kind: 'past-the-last'; last: number }

const lengthFields = ['width', 'height', 'left', 'top', 'gapX', 'gapY'] as const
export type OwnField = (typeof lengthFields)[number] | 'columns' | 'rows'

/** What is printed on, if it can be. */
export function stockOf(query: LabelsQuery): Result<LabelStock, StockRefusal> {
  const onto = ontoOf(query)
  const heightMm = tapeHeightsMm.find((height) => onto === `tape-${height}`)
  if (heightMm !== undefined) return ok({ kind: 'tape', heightMm })
  const sheet = onto === ownSheet ? readOwnSheet(query) : namedSheet(onto)
  if (!sheet.ok) return sheet
  const last = sheet.value.columns * sheet.value.rows
  if (query.start > last) return refused({ kind: 'past-the-last', last })
  return ok({ kind: 'sheet', sheet: sheet.value, startAt: query.start })
}

function namedSheet(key: string) {
  const sheet = labelSheets.find((each) => each.key === key)
  return sheet ? ok(sheet) : refused({ kind: 'no-such-stock' } as const)
}

function readOwnSheet(query: LabelsQuery) {
  const [columns, rows] = [readCount(query.columns, mostColumns), readCount(query.rows, mostRows)]
  if (columns === null) return refused({ kind: 'not-read', field: 'columns' } as const)
  if (rows === null) return refused({ kind: 'not-read', field: 'rows' } as const)
  const mm = Object.fromEntries(lengthFields.map((field) => [field, readMm(query[field])]))
  const unread = lengthFields.find((field) => mm[field] === null)
  if (unread) return refused({ kind: 'not-read', field: unread } as const)
  const of = (field: (typeof lengthFields)[number]) => mm[field] as number
  return checkLabelSheet({
    ...{ paper: query.paper, columns, rows, widthMm: of('width'), heightMm: of('height') },
    ...{ leftMm: of('left'), topMm: of('top'), gapXMm: of('gapX'), gapYMm: of('gapY') },
  })
}

function readCount(text: string, most: number): number | null {
  const count = /^\d{1,3}$/.test(text) ? Number(text) : 0
  return count >= 1 && count <= most ? count : null
}

/** A bare figure is in millimetres; 2⅝ in and 6.7 cm are read too. */
function readMm(text: string): number | null {
  const um = parseClothLength(/[a-z"'”“″’′]\.?$/iu.test(text) ? text : `${text} mm`, 'cm')
  return um === null ? null : um / 1_000
}

/** The address labels lead to, without a slash at its end; null when it is none. */
export function readBase(text: string): string | null {
  try {
    const url = new URL(/^[a-z][a-z\d+.-]*:\/\//iu.test(text) ? text : `http://${text}`)
    const isWeb = url.protocol === 'http:' || url.protocol === 'https:'
    return isWeb && url.username === '' && url.search === '' && url.hash === ''
      ? `${url.origin}${url.pathname.replace(/\/+$/u, '')}`
      : null
  } catch {
    return null
  }
}

/** The address the person uses now, by what their browser asked for. */
export function baseOfRequest(headers: Pick<Headers, 'get'>): string {
  const isSecure = headers.get('x-forwarded-proto')?.split(',')[0]?.trim() === 'https'
  return `${isSecure ? 'https' : 'http'}://${headers.get('host') ?? 'localhost'}`
}

/** Whether an address leads only to the machine it is typed on. */
export const isOnlyHere = (base: string): boolean => /^https?:\/\/(?:localhost|127\.|\[::1\])/iu.test(base)
