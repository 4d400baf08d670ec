import { z } from 'zod'
import { idText, isTicked, optionalText, versionText } from '#forms/fields'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { bleedTests, turningQuestion } from '#lib/cloth/care'
import { clothDyeings, type OneWayReason, oneWayReasons, washStates, weaves } from '#lib/cloth/cloth-piece'
import { parseReadings } from '#lib/cloth/ruler-count'
import { hexToLab, labToHex } from '#lib/colour/convert'
import { type ClothInput, sizeCertainties } from '#lib/db/cloth/add-cloth'
import { clothEndings } from '#lib/db/cloth/remove-cloth'
import { type LengthUnit, parseClothSize } from '#lib/quantity/cloth-length'
import { type Count, parseCount } from '#lib/quantity/count'
import { countWords } from '#words/cloth-count'

const piece = { id: idText, version: versionText }

/** No piece is longer: a bolt is some fifty metres. */
const longestUm = 200_000_000
const sizeProblem = (unit: LengthUnit) =>
  say('Give both sides, width first: {isIn, select, yes {18 x 27 in} other {45 x 70 cm}}.', { isIn: unit === 'in' })

const sizeText = (unit: LengthUnit) =>
  z.string().transform((text, context) => {
    const size = parseClothSize(text, unit)
    if (size && size.widthUm <= longestUm && size.heightUm <= longestUm) return size
    context.addIssue({ code: 'custom', message: sizeProblem(unit) })
    return z.NEVER
  })

/** A day that has been, as the browser's date box sends it. `today` as yyyy-mm-dd. */
const pastDay = (today: string) =>
  z.iso
    .date({ error: () => say('Give a day as 2026-12-01.') })
    .refine((day) => day <= today, { error: () => say('That day has not come yet.') })
const optionalPastDay = (today: string) =>
  z.preprocess((text) => (text === '' || text === undefined ? null : text), pastDay(today).nullable())

/** How a piece may lie, in one field: either way round, or one way only and why. */
export const turnings = ['either', ...oneWayReasons, 'unsaid'] as const
type TurningText = (typeof turnings)[number]

/** What the turning field shows of a piece as it is. */
export const turningText = ({ isTurnable, oneWayBecause }: Pick<ClothInput, 'isTurnable' | 'oneWayBecause'>): TurningText =>
  isTurnable ? 'either' : (oneWayBecause ?? 'unsaid')

/** Whether a card's piece may be turned and why not. What is hand-dyed or not square has to be asked. */
function turned<Card extends { turning: '' | TurningText; dyeing: ClothInput['dyeing']; count: { ends: Count; picks: Count } }>(
  card: Card,
  context: z.RefinementCtx,
) {
  const { turning, ...rest } = card
  const asked = turning === '' ? turningQuestion({ dyeing: card.dyeing, ...card.count }) : null
  if (asked !== null) {
    const message =
      asked === 'dye'
        ? say('Hand-dyed cloth may run one way. Look at it in daylight both ways round, then say whether it may be turned.')
        : say('It is not square, so a design changes its size when the piece is turned. Say whether it may be.')
    context.addIssue({ code: 'custom', message, path: ['turning'] })
    return z.NEVER
  }
  const oneWayBecause: OneWayReason | null = oneWayReasons.find((reason) => reason === turning) ?? null
  return { ...rest, isTurnable: turning === '' || turning === 'either', oneWayBecause }
}

/** What stands in the fields of a piece's card; a field left as it stood keeps the exact figures behind it. */
export const cardTexts = (held: Pick<ClothInput, 'ends' | 'picks' | 'widthUm' | 'heightUm' | 'lab'>, unit: LengthUnit) => ({
  count: countWords(held.ends, held.picks),
  size: formatClothSize(held, unit),
  hex: held.lab ? labToHex(held.lab) : '',
})

type Exact = { ends: Count; picks: Count }

/** How a card is read: the unit of bare figures, and the day it is (yyyy-mm-dd). */
export type CardReading = { unit: LengthUnit; today: string }

/**
 * A piece's card as typed.
 *
 * @param held     the piece as it is, when it is being changed: a length shown in the other unit, or a colour shown as hex, is not exact
 * @param counted  its count as it was found along a ruler, which the field shows to two decimals
 */
function clothCardFields({ unit, today }: CardReading, held: ClothInput | null, counted: Exact | null) {
  const shown = held && cardTexts(held, unit)
  const exact = held ?? counted
  const counts = z.string().transform((text, context) => {
    if (exact && text.trim() === countWords(exact.ends, exact.picks)) return { ends: exact.ends, picks: exact.picks }
    const count = parseCount(text)
    if (count) return { ends: count.ends, picks: count.picks }
    context.addIssue({ code: 'custom', message: say('Give the count as 28, as 34 x 31 (ends, then picks), or as 110/10cm.') })
    return z.NEVER
  })
  const size = z.string().transform((text, context) => {
    if (held && text.trim() === shown?.size) return { widthUm: held.widthUm, heightUm: held.heightUm }
    const read = sizeText(unit).safeParse(text)
    if (read.success) return read.data
    context.addIssue({ code: 'custom', message: sizeProblem(unit) })
    return z.NEVER
  })
  const hex = z
    .string()
    .trim()
    .transform((text, context) => {
      if (text === '') return null
      if (held && text === shown?.hex) return held.lab
      const lab = hexToLab(text.startsWith('#') ? text : `#${text}`)
      if (lab) return lab
      context.addIssue({ code: 'custom', message: say('Give the colour as six hexadecimal figures, #e8dfc9, or leave it out.') })
      return z.NEVER
    })
  return {
    label: optionalText(60),
    name: z
      .string()
      .trim()
      .min(1, { error: () => say('Say what cloth it is: Linen, or the name on its band.') })
      .max(120),
    makerName: optionalText(120),
    colourName: optionalText(120),
    hex,
    weave: z.enum(weaves, { error: () => say('Choose how it is woven: it decides which designs can go on it.') }),
    count: counts,
    countCertainty: z.enum(sizeCertainties, { error: () => say('Choose how its count is known.') }),
    size,
    isSquared: isTicked,
    sizeCertainty: z.enum(sizeCertainties, { error: () => say('Choose how its size is known.') }),
    turning: z.enum(['', ...turnings], { error: () => say('Choose one of those.') }).default(''),
    dyeing: z
      .enum(['', ...clothDyeings], { error: () => say('Choose one of those.') })
      .default('')
      .transform((text) => (text === '' ? null : text)),
    washState: z.enum(washStates, { error: () => say('Choose one of those.') }).default('unknown'),
    washedOn: optionalPastDay(today),
    note: optionalText(1000),
  }
}

type CardInput = Omit<z.infer<ReturnType<typeof addClothSchema>>, 'ownerId' | 'placeLabel'>

/** The card as the larder takes it. */
export const clothInputOf = ({ hex, count, size, ...card }: CardInput): ClothInput => ({
  ...card,
  ...count,
  ...size,
  lab: hex,
})

export const addClothSchema = (reading: CardReading, counted: Exact | null) =>
  z.object({ ...clothCardFields(reading, null, counted), ownerId: idText, placeLabel: optionalText(60) }).transform(turned)
export const editClothSchema = (reading: CardReading, held: ClothInput | null) =>
  z.object({ ...clothCardFields(reading, held, null), ...piece }).transform(turned)
export const pieceIdSchema = z.object({ id: idText })
export const returnSchema = z.object(piece)
export const restoreSchema = z.object(piece)

export const measureSchema = (unit: LengthUnit) =>
  z.object({ ...piece, size: sizeText(unit), isSquared: isTicked, note: optionalText(300) })

const readingsText = z.string().transform((text, context) => {
  const readings = parseReadings(text)
  if (readings) return readings
  context.addIssue({ code: 'custom', message: say('Those are no readings.') })
  return z.NEVER
})

/** Readings along a ruler, as an address or a form carries them. */
export const readingsSchema = z.object({
  across: readingsText,
  up: readingsText,
  ruler: z.enum(['in', 'cm']),
  weave: z.enum(weaves).catch('single'),
})

export const countSchema = z.object({
  ...piece,
  ...readingsSchema.omit({ weave: true }).shape,
  turning: z.enum(['as-it-was', 'either', 'count'], { error: () => say('Say whether it may still be turned.') }),
  note: optionalText(300),
})

export const washSchema = ({ unit, today }: CardReading) =>
  z
    .object({
      ...piece,
      washedOn: pastDay(today),
      size: z.string().trim().default(''),
      isSquared: isTicked,
      note: optionalText(300),
    })
    .transform(({ size, isSquared, ...rest }, context) => {
      if (size === '') return { ...rest, measured: null }
      const read = sizeText(unit).safeParse(size)
      if (read.success) return { ...rest, measured: { ...read.data, isSquared } }
      context.addIssue({ code: 'custom', message: sizeProblem(unit), path: ['size'] })
      return z.NEVER
    })

export const bleedTestSchema = (today: string) =>
  z.object({
    ...piece,
    result: z.enum(bleedTests, { error: () => say('Choose how the white cloth came away.') }),
    testedOn: pastDay(today),
    note: optionalText(300),
  })

export const moveSchema = z.object({
  ...piece,
  placeLabel: z
    .string()
    .trim()
    .min(1, { error: () => say('Say where it goes: the label of a place.') })
    .max(60),
  becomesHome: isTicked,
})

export const removeSchema = z.object({
  ...piece,
  ending: z.enum(clothEndings, { error: () => say('Choose why it goes.') }),
  note: optionalText(300),
})

export const transferSchema = z.object({
  ...piece,
  toOwnerId: z
    .string()
    .min(1, { error: () => say('Choose whom it goes to.') })
    .max(64),
  reason: optionalText(300),
})

/** Offcuts a form asks for at a time. */
export const offcutRows = [1, 2, 3, 4] as const

type OffcutRow = (typeof offcutRows)[number]
const offcutFields = Object.fromEntries(
  offcutRows.flatMap((row) => [
    [`size${row}`, z.string().trim().default('')],
    [`label${row}`, optionalText(60)],
    [`place${row}`, optionalText(60)],
  ]),
) as Record<`size${OffcutRow}`, z.ZodDefault<z.ZodString>> &
  Record<`label${OffcutRow}` | `place${OffcutRow}`, ReturnType<typeof optionalText>>

/** A cut that was made: what the piece is now, and the offcuts whose size was filled in. */
export const cutSchema = (unit: LengthUnit) =>
  z
    .object({
      ...piece,
      becomes: z.enum(['smaller', 'gone'], { error: () => say('Choose what has become of the piece.') }),
      remaining: z.string().trim().default(''),
      projectId: optionalText(64),
      note: optionalText(300),
      ...offcutFields,
    })
    .transform((input, context) => {
      const read = (field: 'remaining' | `size${OffcutRow}`) => {
        const size = sizeText(unit).safeParse(input[field])
        if (!size.success) context.addIssue({ code: 'custom', message: sizeProblem(unit), path: [field] })
        return size.success ? size.data : null
      }
      const offcuts = offcutRows.flatMap((row) => {
        const isBlank = input[`size${row}`] === ''
        if (isBlank && input[`label${row}`] === null && input[`place${row}`] === null) return []
        const size = read(`size${row}`)
        return size ? [{ ...size, label: input[`label${row}`], placeLabel: input[`place${row}`] }] : []
      })
      const remaining = input.becomes === 'smaller' ? read('remaining') : null
      const { id, version, projectId, note } = input
      return context.issues.length > 0 ? z.NEVER : { id, version, remaining, offcuts, projectId, note }
    })
