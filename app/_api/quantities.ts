import { z } from 'zod'
import { formatClothSize, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { type Count, parseCount, perInch } from '#lib/quantity/count'
import { formatThreadLength, TENTHS_PER_MM } from '#lib/quantity/thread-length'

/** Longer than any cloth or design; guards sums against figures no reader could mean. */
const mostUm = 100_000_000
/** A hundred kilometres of strand. */
const mostStrandTenths = 1_000_000_000

export const lengthUm = z.int().min(0).max(mostUm)
export const sideUm = z.int().min(1).max(mostUm)
export const strandTenths = z.int().min(0).max(mostStrandTenths)
export const putUpStrandTenths = z
  .int()
  .min(1)
  .max(mostStrandTenths / 10)
  .meta({
    description: 'Length of one put-up times its strands: 8 m of six is 480,000.',
    example: 480_000,
  })
export const designSide = z.int().min(1).max(100_000)
export const strandCount = z.int().min(1).max(50)

/** Databases take no NUL, and no name has a control character in it. */
const withoutControls = (text: string): boolean => !/\p{Cc}/u.test(text)
const controls = { message: 'It has control characters in it.', params: { accepted: 'plain text on one line' } }
export const shortText = z.string().trim().min(1).max(200).refine(withoutControls, controls)
export const idText = z.string().min(1).max(100).refine(withoutControls, controls)
export const noteText = z
  .string()
  .trim()
  .min(1)
  .max(4_000)
  .refine((text) => withoutControls(text.replace(/[\r\n\t]/g, ' ')), { message: 'It has control characters in it.' })
export const dateText = z.iso.date().meta({ description: 'yyyy-mm-dd', example: '2026-09-08' })

/** A schema that also takes null. `.nullable()` on a named schema is written into the document as never null. */
export const orNull = <Schema extends z.ZodType>(schema: Schema) => z.union([schema, z.null()])

export const countSchema = z
  .strictObject({ threads: z.int().min(1).max(1_000_000), perUm: z.int().min(1).max(mostUm) })
  .refine((count) => perInch(count) >= 1 && perInch(count) <= 200, {
    message: 'That is no count of cloth.',
    params: { accepted: '1 to 200 threads to the inch' },
  })
  .meta({ id: 'Count', description: 'So many threads in so many micrometres: 28 to the inch is 28 in 25,400.' })

const clothFields = {
  count: z.string().max(100).optional().meta({
    description: 'As people write it: `28`, `28 ct over 2`, `34 x 31` (ends, then picks), `110 per 10 cm`.',
    example: '28',
  }),
  ends: countSchema.optional().meta({ description: 'Instead of `count`: threads counted going sideways, and `picks` going up.' }),
  picks: countSchema.optional(),
}

type ClothCount = { ends: Count; picks: Count; over: 1 | 2 | null }

/** Ends and picks from whichever of the fields say them; a string when they do not hold together. */
function readClothCount(fields: {
  count?: string | undefined
  ends?: Count | undefined
  picks?: Count | undefined
}): ClothCount | { field: 'count' | 'ends' | 'picks'; message: string; accepted: string } {
  const { count, ends, picks } = fields
  if (count === undefined) {
    if (ends && picks) return { ends, picks, over: null }
    const field = ends ? 'picks' : picks ? 'ends' : 'count'
    return { field, message: 'The count is missing.', accepted: '`count`, or `ends` and `picks`' }
  }
  if (ends || picks) return { field: 'count', message: 'It is said twice.', accepted: '`count`, or `ends` and `picks`' }
  const read = parseCount(count)
  return read ?? { field: 'count', message: 'It is not a count.', accepted: '28, 28 over 2, 34 x 31, 110 per 10 cm' }
}

/** A piece's own count. */
export const pieceCountFields = clothFields
export const readPieceCount = readClothCount

/** A cloth to work on: its count, and over how many threads. */
export const clothSchema = z
  .strictObject({
    ...clothFields,
    over: z.literal([1, 2]).optional().meta({ description: 'Threads a stitch spans; may be part of `count` instead.' }),
  })
  .transform((cloth, context): { ends: Count; picks: Count; over: 1 | 2 } => {
    const refuse = (field: string, message: string, accepted: string) => {
      context.issues.push({ code: 'custom', input: cloth, path: [field], message, params: { accepted } })
      return z.NEVER
    }
    const read = readClothCount(cloth)
    if ('message' in read) return refuse(read.field, read.message, read.accepted)
    const over = cloth.over ?? read.over
    if (over === null) return refuse('over', 'It is missing.', '1 or 2')
    if (read.over !== null && read.over !== over) return refuse('over', 'The count says another.', String(read.over))
    return { ends: read.ends, picks: read.picks, over }
  })

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits))

/** Lengths worked out are not whole; they are given to a nanometre, and to a tenth of a thousandth of a millimetre of thread. */
export const toNanometre = (um: number): number => rounded(um, 3)
export const toThousandth = (value: number): number => rounded(value, 3)

export const sizeSchema = z
  .strictObject({
    widthUm: z.number().meta({ description: 'Micrometres, to a nanometre.' }),
    heightUm: z.number(),
    widthIn: z.number(),
    heightIn: z.number(),
    widthCm: z.number(),
    heightCm: z.number(),
    text: z.string().meta({ description: 'In both: `16 × 13 in (40.64 × 33.02 cm)`.' }),
  })
  .meta({ id: 'ClothSize' })

export function describeSize(size: { widthUm: number; heightUm: number }): z.input<typeof sizeSchema> {
  return {
    widthUm: toNanometre(size.widthUm),
    heightUm: toNanometre(size.heightUm),
    widthIn: rounded(size.widthUm / UM_PER_INCH, 4),
    heightIn: rounded(size.heightUm / UM_PER_INCH, 4),
    widthCm: rounded(size.widthUm / 10_000, 4),
    heightCm: rounded(size.heightUm / 10_000, 4),
    text: `${formatClothSize(size, 'in')} (${formatClothSize(size, 'cm')})`,
  }
}

export const threadLengthSchema = z
  .strictObject({
    strandTenths: z.int().meta({ description: 'Whole tenths of a millimetre of one strand.' }),
    strandMm: z.number(),
    strandMetres: z.number(),
    text: z.string().meta({ description: 'Metres of one strand.' }),
  })
  .meta({ id: 'ThreadLength' })

export function describeThreadLength(tenths: number): z.input<typeof threadLengthSchema> {
  return {
    strandTenths: tenths,
    strandMm: tenths / TENTHS_PER_MM,
    strandMetres: rounded(tenths / TENTHS_PER_MM / 1_000, 4),
    text: `${formatThreadLength(tenths, 'm')} of one strand`,
  }
}

export const putUps = z.int().min(1).max(10_000)
export const versionField = z
  .int()
  .min(0)
  .optional()
  .meta({ description: 'The version last seen; left out, it is taken as it stands.' })
