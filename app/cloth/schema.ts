import { z } from 'zod'
import { idText, isTicked, optionalText, versionText } from '#forms/fields'
import { weaves } from '#lib/cloth/cloth-piece'
import { hexToLab, labToHex } from '#lib/colour/convert'
import { type ClothInput, sizeCertainties } from '#lib/db/cloth/add-cloth'
import { clothEndings } from '#lib/db/cloth/remove-cloth'
import { formatClothSize, type LengthUnit, parseClothSize } from '#lib/quantity/cloth-length'
import { formatCount, parseCount } from '#lib/quantity/count'

const piece = { id: idText, version: versionText }

/** No piece is longer: a bolt is some fifty metres. */
const longestUm = 200_000_000
const sizeProblem = (unit: LengthUnit) => `Give both sides, width first: ${unit === 'in' ? '18 x 27 in' : '45 x 70 cm'}.`

const sizeText = (unit: LengthUnit) =>
  z.string().transform((text, context) => {
    const size = parseClothSize(text, unit)
    if (size && size.widthUm <= longestUm && size.heightUm <= longestUm) return size
    context.addIssue({ code: 'custom', message: sizeProblem(unit) })
    return z.NEVER
  })

/** What stands in the fields of a piece's card; a field left as it stood keeps the exact figures behind it. */
export const cardTexts = (held: Pick<ClothInput, 'ends' | 'picks' | 'widthUm' | 'heightUm' | 'lab'>, unit: LengthUnit) => ({
  count: formatCount(held.ends, held.picks),
  size: formatClothSize(held, unit),
  hex: held.lab ? labToHex(held.lab) : '',
})

/**
 * A piece's card as typed.
 *
 * @param held  the piece as it is, when it is being changed: a length shown in the other unit, or a colour shown as hex, is not exact
 */
export function clothCardSchema(unit: LengthUnit, held: ClothInput | null) {
  const shown = held && cardTexts(held, unit)
  const counts = z.string().transform((text, context) => {
    if (held && text.trim() === shown?.count) return { ends: held.ends, picks: held.picks }
    const count = parseCount(text)
    if (count) return { ends: count.ends, picks: count.picks }
    context.addIssue({ code: 'custom', message: 'Give the count as 28, as 34 x 31 (ends, then picks), or as 110/10cm.' })
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
      context.addIssue({ code: 'custom', message: 'Give the colour as six hexadecimal figures, #e8dfc9, or leave it out.' })
      return z.NEVER
    })
  return z.object({
    label: optionalText(60),
    name: z.string().trim().min(1, 'Say what cloth it is: Linen, or the name on its band.').max(120),
    makerName: optionalText(120),
    colourName: optionalText(120),
    hex,
    weave: z.enum(weaves, 'Choose how it is woven: it decides which designs can go on it.'),
    count: counts,
    size,
    isSquared: isTicked,
    sizeCertainty: z.enum(sizeCertainties, 'Choose how its size is known.'),
    isTurnable: isTicked,
    note: optionalText(1000),
  })
}

/** The card as the larder takes it. */
export const clothInputOf = ({ hex, count, size, ...card }: z.infer<ReturnType<typeof clothCardSchema>>): ClothInput => ({
  ...card,
  ...count,
  ...size,
  lab: hex,
})

export const addClothSchema = (unit: LengthUnit) =>
  clothCardSchema(unit, null).extend({ ownerId: idText, placeLabel: optionalText(60) })
export const editClothSchema = (unit: LengthUnit, held: ClothInput | null) => clothCardSchema(unit, held).extend(piece)
export const pieceIdSchema = z.object({ id: idText })
export const returnSchema = z.object(piece)
export const restoreSchema = z.object(piece)

export const measureSchema = (unit: LengthUnit) =>
  z.object({ ...piece, size: sizeText(unit), isSquared: isTicked, note: optionalText(300) })

export const moveSchema = z.object({
  ...piece,
  placeLabel: z.string().trim().min(1, 'Say where it goes: the label of a place.').max(60),
  becomesHome: isTicked,
})

export const removeSchema = z.object({
  ...piece,
  ending: z.enum(clothEndings, 'Choose why it goes.'),
  note: optionalText(300),
})

export const transferSchema = z.object({
  ...piece,
  toOwnerId: z.string().min(1, 'Choose whom it goes to.').max(64),
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
      becomes: z.enum(['smaller', 'gone'], 'Choose what has become of the piece.'),
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

export const clothListSchema = z.object({
  weave: z.enum(weaves).nullable().catch(null),
  count: z.string().max(20).min(1).nullable().catch(null),
  colour: z.string().max(120).min(1).nullable().catch(null),
  place: z.string().max(64).min(1).nullable().catch(null),
  offcuts: z.literal('1').optional().catch(undefined),
  free: z.literal('1').optional().catch(undefined),
  page: z.coerce.number().int().min(1).max(1_000).catch(1),
})
