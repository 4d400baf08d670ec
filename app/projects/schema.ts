import { z } from 'zod'
import { idText, isTicked, optionalRead, optionalText, versionText } from '#forms/fields'
import { formatThreadLength } from '#language/lengths'
import { say } from '#language/say'
import { mostStars } from '#lib/planning/together/wish-value'
import { type LengthUnit, parseClothSize } from '#lib/quantity/cloth-length'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'

const optionalId = z
  .string()
  .max(64)
  .default('')
  .transform((id) => (id === '' ? null : id))

/** A day as the browser's date box sends it. */
const dayText = z.iso.date({ error: () => say('Give a day as 2026-12-01.') })
const optionalDay = z
  .union([z.literal(''), dayText], { error: () => say('Give a day as 2026-12-01, or leave it blank.') })
  .default('')
  .transform((day) => (day === '' ? null : day))

const over = z
  .enum(['', '1', '2'])
  .default('')
  .transform((text) => (text === '' ? null : (Number(text) as 1 | 2)))

const quantity = z
  .string()
  .default('1')
  .transform((text, context) => {
    const value = parseWholeNumber(text)
    if (value !== null && value >= 1 && value <= 10_000) return value
    context.addIssue({ code: 'custom', message: say('How many is a whole number from 1: 12.') })
    return z.NEVER
  })

/** Spare kits made beside those; blank is none. */
const spares = z
  .string()
  .trim()
  .default('')
  .transform((text, context) => {
    const value = text === '' ? 0 : parseWholeNumber(text)
    if (value !== null && value <= 1_000) return value
    context.addIssue({ code: 'custom', message: say('Spares are a whole number up to 1,000; leave it blank for none.') })
    return z.NEVER
  })

/** How many are on record: those to be made and the spares beside them. */
const withSpares = <Numbers extends { quantity: number; spares: number }>(numbers: Numbers): Numbers => ({
  ...numbers,
  quantity: numbers.quantity + numbers.spares,
})

const mostHoursTenths = 1_000_000

/** "12½", "1.5", "1:30"; to the nearest tenth of an hour. Blank is none. */
const hours = z
  .string()
  .trim()
  .default('')
  .transform((text, context) => {
    const clock = /^(\d{1,5}):([0-5]\d)$/.exec(text)
    const value = text === '' ? 0 : clock ? Number(clock[1]) + Number(clock[2]) / 60 : parseNumber(text)
    const tenths = value === null ? -1 : Math.round(value * 10)
    if (tenths >= 0 && tenths <= mostHoursTenths) return tenths
    context.addIssue({ code: 'custom', message: say('Hours are a number: 12, 1½ or 1:30.') })
    return z.NEVER
  })

const stitches = z
  .string()
  .trim()
  .default('')
  .transform((text, context) => {
    const value = text === '' ? 0 : parseWholeNumber(text)
    if (value !== null && value <= 100_000_000) return value
    context.addIssue({ code: 'custom', message: say('Stitches are a whole number: 2,940.') })
    return z.NEVER
  })

const neededLabel = z
  .string()
  .trim()
  .min(1, { error: () => say('Say which bag: the label on it.') })
  .max(60, { error: () => say('Keep the label to 60 characters.') })

const number = (least: number) => z.coerce.number().int().min(least).max(10_000).optional().catch(undefined)
export const newPageSchema = z.object({
  design: idText,
  owner: z.string().max(64).optional().catch(undefined),
  list: z.string().max(64).optional().catch(undefined),
  kits: number(1),
  spares: number(0),
})
export const pageSchema = z.object({ page: z.coerce.number().int().min(1).max(10_000).catch(1) })
/** A page of the projects, or what is kitted and comes out within a size, as typed. */
export const projectsPageSchema = pageSchema.extend({ within: z.string().trim().max(60).catch('') })

/** How much she says she will do a week, as typed: stitches, or per cent where only those are known. */
export const paceQuerySchema = z.object({
  'per-week': z
    .string()
    .transform((text) => parseNumber(text))
    .pipe(z.number().positive().max(1_000_000))
    .nullable()
    .default(null)
    .catch(null),
})

export const startProjectSchema = z
  .object({
    designId: idText,
    ownerId: idText,
    threadListId: optionalId,
    clothPieceId: optionalId,
    over,
    bagLabel: optionalText(60),
    quantity,
    spares,
    dueOn: optionalDay,
    plannedOn: optionalDay,
    forWhom: optionalText(120),
    note: optionalText(1_000),
    isWish: isTicked,
  })
  .transform(withSpares)

const project = { projectId: idText, version: versionText }
export const projectSchema = z.object(project)
/** What is in the bag of a project that is freed or given up: listed to be put back, or back already. */
export const closeProjectSchema = z.object({ ...project, putBack: z.enum(['now', 'list']).default('list') })
export const putBackNotionSchema = z.object({ id: idText, version: versionText })
export const kitProjectSchema = z.object({ ...project, bagLabel: neededLabel, takesChart: isTicked })
export const changeBagSchema = z.object({ ...project, bagLabel: neededLabel })
export const moveProjectSchema = z.object({ ...project, to: z.enum(['stitching', 'resting', 'stitched']) })

export const setSwapSchema = z.object({ ...project, threadId: idText, standInThreadId: optionalId, reason: optionalText(300) })

/** A length to promise; the one the form offered, which it shows rounded, is taken exactly. */
export const promiseBatchSchema = ({ unit, strands }: { unit: ThreadLengthUnit; strands: number }) =>
  z
    .object({
      projectId: idText,
      batchId: idText,
      version: versionText,
      offered: z.coerce.number().int().min(0).catch(0),
      strandTenths: z.string().trim().default(''),
    })
    .transform(({ offered, strandTenths: text, ...promise }, context) => {
      const tenths = text === formatThreadLength(offered / strands, unit) ? offered / strands : parseThreadLength(text, unit)
      const strandTenths = tenths === null ? 0 : Math.round(tenths * strands)
      if (strandTenths > 0 && strandTenths <= 1_000_000_000) return { ...promise, strandTenths }
      context.addIssue({ code: 'custom', path: ['strandTenths'], message: say('A length is such as 2.5 m, 8 yd or 60 cm.') })
      return z.NEVER
    })

export const giveBackSchema = z.object({ projectId: idText, batchId: idText })

export const editProjectSchema = z
  .object({
    ...project,
    threadListId: optionalId,
    clothPieceId: optionalId,
    over,
    quantity,
    spares,
    forWhom: optionalText(120),
    dueOn: optionalDay,
    occasionKey: optionalId.optional(),
    stars: optionalRead(
      (text) => {
        const stars = parseWholeNumber(text)
        return stars !== null && stars >= 1 && stars <= mostStars ? stars : null
      },
      () => say('Stars are a whole number from 1 to {mostStars}; leave it blank for none.', { mostStars }),
    ),
    plannedOn: optionalDay,
    finishing: optionalText(60),
    finishingWeeks: optionalRead(
      (text) => {
        const weeks = parseWholeNumber(text)
        return weeks !== null && weeks <= 104 ? weeks : null
      },
      () => say('Weeks are a whole number up to 104; leave it blank to follow the settings.'),
    ),
    note: optionalText(1_000),
    hoursTenths: hours,
    stitchesDone: stitches,
  })
  .transform(withSpares)

const offcutSize = (unit: LengthUnit) =>
  optionalRead(
    (text) => parseClothSize(text, unit),
    () => say('Give the offcut’s size as width by height: 18 x 7 in or 45 x 18 cm.'),
  )

/** All of the finishing form but the threads, whose fields are named after them (see parse-used.ts). */
export const finishProjectSchema = (unit: LengthUnit) =>
  z.object({
    ...project,
    finishedOn: dayText,
    hoursTenths: hours,
    stitchesDone: stitches,
    cloth: z.enum(['used', 'not-used']).default('used'),
    putBack: z.enum(['now', 'list']).default('list'),
    offcut1: offcutSize(unit),
    offcut1Label: optionalText(60),
    offcut1Place: optionalText(60),
    offcut2: offcutSize(unit),
    offcut2Label: optionalText(60),
    offcut2Place: optionalText(60),
    finishing: optionalText(60),
    forWhom: optionalText(120),
    placeLabel: optionalText(60),
    note: optionalText(1_000),
  })

export const pullProjectSchema = z.object({ projectId: idText })
