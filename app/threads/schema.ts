import { z } from 'zod'
import { parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { partCertainties } from '#lib/stock/batch'
import { dyeings } from '#lib/thread/thread'
import { formatStrand } from './amounts'
import { formatColour, parseColour } from './colour-text'

const id = z.string().min(1).max(64)
const version = z.coerce.number().int().min(0)
const optionalText = (length: number) =>
  z
    .string()
    .trim()
    .max(length)
    .default('')
    .transform((text) => text || null)
const reason = optionalText(500)
const placeLabel = z.string().trim().min(1, 'Say which place, by its label.').max(100)
const tick = z
  .string()
  .optional()
  .transform((value) => value === 'on')

/** Larger figures are slips of the finger; the columns hold ten times as much. */
const mostPutUps = 100_000
const mostTenths = 10_000_000

const whole = (what: string) =>
  z
    .string()
    .trim()
    .default('')
    .transform((text, context) => {
      const value = text === '' ? 0 : parseWholeNumber(text)
      if (value !== null && value <= mostPutUps) return value
      context.addIssue({ code: 'custom', message: `${what} is a whole number, such as 3.` })
      return z.NEVER
    })

type Figures = { unit: ThreadLengthUnit; strands: number }

/** A length of thread as sold, read into tenths of a millimetre of one strand; null when left empty. */
const length = ({ unit, strands }: Figures) =>
  z
    .string()
    .trim()
    .default('')
    .transform((text, context) => {
      if (text === '') return null
      const tenths = parseThreadLength(text, unit)
      if (tenths !== null && tenths > 0 && tenths <= mostTenths) return tenths * strands
      context.addIssue({ code: 'custom', message: 'A length is such as 2.5 m, 8 yd or 60 cm, up to 1,000 m.' })
      return z.NEVER
    })

/** A part and how it is known, which must not gainsay each other. */
function checkPart(part: { partStrandTenths: number | null; partCertainty: string }, context: z.RefinementCtx): void {
  const isLength = part.partCertainty !== 'none' && part.partCertainty !== 'some'
  if (isLength && part.partStrandTenths === null)
    context.addIssue({
      code: 'custom',
      path: ['partStrandTenths'],
      message: 'Give its length, or choose another answer beside it.',
    })
  if (!isLength && part.partStrandTenths !== null)
    context.addIssue({ code: 'custom', path: ['partCertainty'], message: 'Say how that length is known, or leave it empty.' })
}

const partFields = (figures: Figures) => ({
  wholePutUps: whole('The count'),
  partStrandTenths: length(figures),
  partCertainty: z.enum(partCertainties, 'Choose one of the answers.'),
})

const batchFields = { batchId: id, version }

export const batchIdSchema = z.object({ batchId: id })

export const recordUseSchema = (figures: Figures) =>
  z.object({
    ...batchFields,
    strandTenths: length(figures).refine((value) => value !== null, 'Say how much was used, such as 2.5 m.'),
    projectId: optionalText(64),
    reason,
  })

export const takeSchema = z
  .object({
    ...batchFields,
    wholePutUps: whole('The count'),
    takesPart: tick,
    place: placeLabel,
    projectId: optionalText(64),
    reason,
  })
  .refine((take) => take.wholePutUps > 0 || take.takesPart, { path: ['wholePutUps'], message: 'Say how many are taken.' })

export const moveSchema = z.object({
  ...batchFields,
  place: placeLabel,
  stay: z.enum(['home', 'while'], 'Say whether it is to live there.'),
  reason,
})

export const returnSchema = z.object({ ...batchFields })

export const correctSchema = (figures: Figures) =>
  z
    .object({
      ...batchFields,
      ...partFields(figures),
      /** The part as it was, in tenths of one strand: the form shows it rounded, and left alone it must not change. */
      partBefore: z.coerce.number().int().min(0).catch(0),
      reason: z.string().trim().min(1, 'Say why: counted, found, lost, spoilt.').max(500),
    })
    .superRefine(checkPart)
    .transform(({ partBefore, partStrandTenths, ...counted }) => {
      const shown = (strandTenths: number) => formatStrand(strandTenths, figures.strands, figures.unit)
      const isUntouched = partStrandTenths !== null && shown(partStrandTenths) === shown(partBefore)
      return { ...counted, partStrandTenths: isUntouched ? partBefore : (partStrandTenths ?? 0) }
    })

export const passOnSchema = z.object({ ...batchFields, toOwnerId: z.string().min(1, 'Choose the new owner.').max(64), reason })

export const releaseSchema = z.object({ projectId: id, batchId: id, threadId: id })

export const receiveSchema = (figures: Figures) =>
  z
    .object({
      threadId: id,
      ownerId: z.string().min(1, 'Choose whose it is.').max(64),
      lot: optionalText(100),
      putUpStrandTenths: length(figures),
      ...partFields(figures),
      place: z.string().trim().max(100).default(''),
      reason,
    })
    .superRefine(checkPart)

const threadFields = {
  code: z.string().trim().min(1, 'Give the code as it stands on the label, zeros and all.').max(100),
  name: optionalText(200),
  lab: z
    .string()
    .trim()
    .default('')
    .transform((text, context) => {
      if (text === '') return null
      const lab = parseColour(text)
      if (lab) return lab
      context.addIssue({ code: 'custom', message: 'A colour is such as #8e2f2b, or three Lab figures: 36.2 41 27.5.' })
      return z.NEVER
    }),
  minimumPutUps: z
    .string()
    .trim()
    .default('')
    .transform((text, context) => {
      if (text === '') return null
      const value = parseWholeNumber(text)
      if (value !== null && value <= mostPutUps) return value
      context.addIssue({ code: 'custom', message: 'The number to keep is a whole number, such as 2.' })
      return z.NEVER
    }),
  note: optionalText(4_000),
}

const lineFields = (unit: ThreadLengthUnit) => ({
  makerName: z.string().trim().min(1, 'Name the maker.').max(200),
  lineName: z.string().trim().max(200).default(''),
  fibre: optionalText(100),
  strands: z
    .string()
    .trim()
    .transform((text, context) => {
      const value = parseWholeNumber(text)
      if (value !== null && value >= 1 && value <= 100) return value
      context.addIssue({ code: 'custom', message: 'Strands are a whole number from 1 to 100.' })
      return z.NEVER
    }),
  putUpTenths: length({ unit, strands: 1 }).refine((value) => value !== null, 'Give the length of one, such as 8 m.'),
  putUpWord: z.string().trim().min(1, 'Say what one is called: skein, hank, spool.').max(40),
  dyeing: z.enum(dyeings),
  lotsMatter: tick,
  working: z.enum(['rows', 'crosses']),
})

export const addThreadSchema = z.object({ lineId: z.string().min(1, 'Choose the line.').max(64), ...threadFields })
export const addThreadAndLineSchema = (unit: ThreadLengthUnit) => z.object({ ...lineFields(unit), ...threadFields })
export const editThreadSchema = z
  .object({
    threadId: id,
    version,
    ...threadFields,
    /** The colour as it was: the form shows it rounded, and left alone it must not change. */
    labBefore: z.string().max(100).default(''),
  })
  .transform(({ labBefore, lab, ...facts }) => {
    const before = parseColour(labBefore)
    const isUntouched = lab !== null && before !== null && formatColour(lab) === formatColour(before)
    return { ...facts, lab: isUntouched ? before : lab }
  })
export const editLineSchema = (unit: ThreadLengthUnit) => z.object({ lineId: id, version, ...lineFields(unit) })
export const removeThreadSchema = z.object({ threadId: id, version })
export const addStandInSchema = z.object({
  threadId: id,
  standIn: z.string().trim().min(1, 'Name the thread, such as Larkholm 0017.').max(300),
  source: optionalText(300),
})
export const removeStandInSchema = z.object({ standInId: id })
