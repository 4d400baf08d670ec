import { z } from 'zod'
import { idText, isTicked, optionalRead, optionalText, versionText } from '#forms/fields'
import { type Sentence, sentenceText } from '#forms/sentence'
import { say } from '#language/say'
import { chartKinds, coverKinds } from '#lib/chart/design'
import { type Weave, weaves } from '#lib/cloth/cloth-piece'
import type { ChartInput } from '#lib/db/chart/add-chart'
import type { DesignInput } from '#lib/db/chart/add-design'
import { chartMoves } from '#lib/db/chart/move-chart'
import { chartEndings } from '#lib/db/chart/remove-chart'
import { weaveOfCount } from '#lib/importing/check-cloth'
import { isSquareCount, parseCount } from '#lib/quantity/count'
import { parseDate } from '#lib/quantity/date'
import { parsePrice } from '#lib/quantity/money'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { allowanceChoiceOf, allowanceProfileNames, isAllowance } from '#lib/thread/allowance'
import { parseDesignSize } from './design-text'

const whole = ({ least, most, empty, message }: { least: number; most: number; empty: number; message: Sentence }) =>
  z
    .string()
    .trim()
    .default('')
    .transform((text, context) => {
      const value = text === '' ? empty : parseWholeNumber(text)
      if (value !== null && value >= least && value <= most) return value
      context.addIssue({ code: 'custom', message: sentenceText(message) })
      return z.NEVER
    })

/** Names parted by semicolons, and by commas too where no name has one. */
const names = (parting: RegExp) =>
  z
    .string()
    .max(1_000, { error: () => say('Keep it to 1000 characters.') })
    .default('')
    .transform((text) =>
      text
        .split(parting)
        .map((name) => name.replace(/\s+/gu, ' ').trim())
        .filter((name) => name !== ''),
    )
    .refine((all) => all.every((name) => name.length <= 120), { error: () => say('Each name may have up to 120 characters.') })

const priceText = optionalRead(
  (text) => parsePrice(text)?.minor ?? null,
  () => say('Give the price as 14.50, or leave it out.'),
)

const day = optionalRead(
  (text) => parseDate(text, { monthFirst: false })?.iso ?? null,
  () => say('Give the day as 2026-09-07, or leave it out.'),
)

const parts = (empty: number, least: number) =>
  whole({ least, most: 1_000, empty, message: () => say('Parts are a whole number from {least}.', { least }) })

const chartFields = {
  title: z
    .string()
    .trim()
    .min(1, { error: () => say('Give the title printed on the chart.') })
    .max(200, { error: () => say('Keep it to 200 characters.') }),
  designers: names(/[;\n]/u),
  kind: z.enum(chartKinds, { error: () => say('Choose what it is.') }),
  ownerId: z
    .string()
    .min(1, { error: () => say('Choose whose it is.') })
    .max(64),
  copies: whole({ least: 1, most: 10_000, empty: 1, message: () => say('Copies are a whole number from 1.') }),
  edition: optionalText(120),
  partsNeeded: parts(1, 1),
  partsHeld: parts(1, 0),
  boughtOn: day,
  price: priceText,
  note: optionalText(2_000),
}

/** What is said of a chart, as the larder takes it. */
export function chartInputOf(fields: z.infer<z.ZodObject<typeof chartFields>>): ChartInput {
  const { title, designers, kind, ownerId, copies, edition, partsNeeded, partsHeld, boughtOn, price, note } = fields
  return { title, designers, kind, ownerId, copies, edition, partsNeeded, partsHeld, boughtOn, priceMinor: price, note }
}

type Parts = { partsNeeded: number; partsHeld: number }
const checkParts = ({ partsNeeded, partsHeld }: Parts, context: z.RefinementCtx): void => {
  if (partsHeld > partsNeeded)
    context.addIssue({ code: 'custom', path: ['partsHeld'], message: say('There cannot be more parts here than there are.') })
}

const designFields = {
  designTitle: z
    .string()
    .trim()
    .max(200, { error: () => say('Keep it to 200 characters.') })
    .default(''),
  size: z
    .string()
    .default('')
    .transform((text, context) => {
      const size = parseDesignSize(text)
      if (size) return size
      context.addIssue({
        code: 'custom',
        message: say('Give both sides, width first: 140 x 98 in stitches, or with its unit as ruled, 8 x 6 in or 20 x 15 cm.'),
      })
      return z.NEVER
    }),
  count: optionalRead(
    (text) => {
      const read = parseCount(text)
      return read && isSquareCount(read.ends, read.picks) ? { count: read.ends, over: read.over } : null
    },
    () => say('Give the count as 28 over 2, 14, or 110/10cm over 2.'),
  ),
  weave: z
    .union([z.enum(weaves), z.literal('')])
    .default('')
    .transform((weave) => weave || null),
  insistsOnWeave: isTicked,
  clothName: optionalText(120),
  coverKind: z
    .union([z.enum(coverKinds), z.literal('')])
    .default('')
    .transform((kind) => kind || null),
  allowance: z
    .union([z.enum([...allowanceProfileNames, 'own']), z.literal('')])
    .default('')
    .transform((profile) => profile || null),
  ownAllowance: optionalRead(
    (text) => {
      const factor = parseNumber(text)
      return factor !== null && isAllowance(factor) ? Math.round(factor * 100) : null
    },
    () => say('A number from 1 to 5, such as 1.45.'),
  ),
  season: names(/[;,\n]/u),
  subject: names(/[;,\n]/u),
  form: names(/[;,\n]/u),
  designNote: optionalText(2_000),
}

type DesignFields = z.infer<z.ZodObject<typeof designFields>>

function checkInsists(
  { insistsOnWeave, weave }: { insistsOnWeave: boolean; weave: Weave | null },
  context: z.RefinementCtx,
): void {
  if (insistsOnWeave && weave === null)
    context.addIssue({ code: 'custom', path: ['weave'], message: say('Choose the weave it insists on.') })
}

function checkAllowance(
  { allowance, ownAllowance }: { allowance: string | null; ownAllowance: number | null },
  context: z.RefinementCtx,
): void {
  if (allowance === 'own' && ownAllowance === null)
    context.addIssue({ code: 'custom', path: ['ownAllowance'], message: say('Give its own allowance, such as 1.45.') })
}

/** What is said of a design, as the larder takes it. Without "over", blocks are worked over one, single threads over two. */
export function designInputOf(fields: DesignFields, titleWhenEmpty: string): DesignInput {
  const { designTitle, size, count, weave, insistsOnWeave, clothName, coverKind, season, subject, form, designNote } = fields
  const { allowance, ownAllowance } = fields
  const usualOver = count && (weave ?? weaveOfCount(count.count)) === 'block' ? 1 : 2
  return {
    title: designTitle || titleWhenEmpty,
    size,
    advised: count && { count: count.count, over: count.over ?? usualOver },
    weave,
    insistsOnWeave,
    clothName,
    coverKind,
    allowance: allowanceChoiceOf(allowance, ownAllowance),
    note: designNote,
    themes: { season, subject, form },
  }
}

const chart = { id: idText, version: versionText }

export const addChartSchema = z
  .object({ ...chartFields, ...designFields, placeLabel: optionalText(100), isAnother: isTicked })
  .superRefine(checkParts)
  .superRefine(checkInsists)
  .superRefine(checkAllowance)
export const editChartSchema = z.object({ ...chartFields, ...chart }).superRefine(checkParts)
export const moveChartSchema = z.object({
  ...chart,
  how: z.enum(chartMoves, { error: () => say('Choose how it goes there.') }),
  placeLabel: z
    .string()
    .trim()
    .min(1, { error: () => say('Say where it goes: the label of a place, or a name.') })
    .max(100),
  reason: optionalText(300),
})
export const chartVersionSchema = z.object(chart)
export const removeChartSchema = z.object({
  ...chart,
  ending: z.enum(chartEndings, { error: () => say('Choose why it goes.') }),
  note: optionalText(300),
})

export const addDesignSchema = z
  .object({ ...designFields, chartId: idText })
  .superRefine(checkInsists)
  .superRefine(checkAllowance)
  .refine(({ designTitle }) => designTitle !== '', { path: ['designTitle'], error: () => say('Give the title of the design.') })
export const editDesignSchema = z
  .object({ ...designFields, ...chart })
  .superRefine(checkInsists)
  .superRefine(checkAllowance)
  .refine(({ designTitle }) => designTitle !== '', { path: ['designTitle'], error: () => say('Give the title of the design.') })
export const designVersionSchema = z.object(chart)

/** What a list of keys is sent with, beside its lines. */
export const listHeadSchema = z.object({
  designId: idText,
  listId: optionalText(64),
  version: versionText,
  name: z
    .string()
    .trim()
    .min(1, { error: () => say('Give the list a name, such as Cotton or Printed list.') })
    .max(120, { error: () => say('Keep it to 120 characters.') }),
})
