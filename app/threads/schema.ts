import { z } from 'zod'
import { idText, isTicked, optionalRead, optionalText, versionText } from '#forms/fields'
import { type Sentence, sentenceText } from '#forms/sentence'
import { say } from '#language/say'
import { colourFamilies } from '#lib/colour/family'
import { labCertainties } from '#lib/colour/lab'
import { parsePrice } from '#lib/quantity/money'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { type FullPutUp, fullOfLength, type Part, parsePart } from '#lib/stock/part-length'
import { dyeings } from '#lib/thread/thread'
import { putUpMeant, threadLength } from '#words/amounts'
import { formatColour, parseColour } from './colour-text'
import { describePartRefusal } from './words'

const reason = optionalText(500)
const placeLabel = z
  .string()
  .trim()
  .min(1, { error: () => say('Say which place, by its label.') })
  .max(100)
/** Larger figures are slips of the finger; the columns hold ten times as much. */
const mostPutUps = 100_000
const mostTenths = 10_000_000

const putUps = (message: Sentence) =>
  optionalRead((text) => {
    const value = parseWholeNumber(text)
    return value !== null && value <= mostPutUps ? value : null
  }, message)

/** How many there are; nought when left empty. */
const count = putUps(() => say('The count is a whole number, such as 3.')).transform((value) => value ?? 0)

type Figures = { unit: ThreadLengthUnit; strands: number }

/** A length of thread as sold, read into tenths of a millimetre of one strand; null when left empty. */
const length = ({ unit, strands }: Figures) =>
  optionalRead(
    (text) => {
      const tenths = parseThreadLength(text, unit)
      return tenths !== null && tenths > 0 && tenths <= mostTenths ? tenths * strands : null
    },
    () => say('A length is such as 2.5 m, 8 yd or 60 cm, up to 1,000 m.'),
  )

/** What was typed, or exactly what was there when both are shown alike. In tenths of one strand. */
export function asItWas(typed: number | null, before: number, { strands, unit }: Figures): number | null {
  const shown = (strandTenths: number) => threadLength(strandTenths, strands, unit)
  return typed !== null && shown(typed) === shown(before) ? before : typed
}

/** What a part is read by: how long and how heavy a full one is. */
type PartFigures = FullPutUp & { unit: ThreadLengthUnit }

/** How surely a part is known: as what was typed tells, or as the person says. */
const saidCertainties = ['', 'measured', 'label', 'guess'] as const

const partFields = {
  wholePutUps: count,
  part: z.string().trim().max(100).default(''),
  partCertainty: z.enum(saidCertainties, { error: () => say('Choose one of the answers.') }).default(''),
}

/** The part as typed, `2.5 m`, `1/2`, `3.1 g` or `some`, and how it is known; null once what is wrong with it is said. */
function readPart(
  said: { part: string; partCertainty: (typeof saidCertainties)[number] },
  figures: PartFigures,
  context: z.RefinementCtx,
): Part | null {
  const read = parsePart(said.part, figures, mostTenths * figures.strands)
  if (!read.ok) {
    context.addIssue({ code: 'custom', path: ['part'], message: describePartRefusal(read.error, figures) })
    return null
  }
  const { partStrandTenths, partCertainty } = read.value
  return { partStrandTenths, partCertainty: partStrandTenths > 0 && said.partCertainty ? said.partCertainty : partCertainty }
}

const batchFields = { batchId: idText, version: versionText }

export const batchIdSchema = z.object({ batchId: idText })

export const recordUseSchema = (figures: Figures) =>
  z
    .object({ ...batchFields, strandTenths: length(figures), isAll: isTicked, projectId: optionalText(64), reason })
    .transform(({ isAll, strandTenths, ...use }, context) => {
      if (isAll) return { ...use, strandTenths: 'all' as const }
      if (strandTenths !== null) return { ...use, strandTenths }
      context.addIssue({
        code: 'custom',
        path: ['strandTenths'],
        message: say('Say how much was used, such as 2.5 m, or tick that it is used up.'),
      })
      return z.NEVER
    })

export const takeSchema = z
  .object({
    ...batchFields,
    wholePutUps: count,
    takesPart: isTicked,
    place: placeLabel,
    projectId: optionalText(64),
    reason,
  })
  .refine((take) => take.wholePutUps > 0 || take.takesPart, {
    path: ['wholePutUps'],
    error: () => say('Say how many are taken.'),
  })

export const moveSchema = z.object({
  ...batchFields,
  place: placeLabel,
  stay: z.enum(['home', 'while'], { error: () => say('Say whether it is to live there.') }),
  reason,
})

export const returnSchema = z.object({ ...batchFields })

export const correctSchema = (figures: PartFigures) =>
  z
    .object({
      ...batchFields,
      ...partFields,
      /** The part as it was, in tenths of one strand: the form shows it rounded, and left alone it must not change. */
      partBefore: z.coerce.number().int().min(0).catch(0),
      reason: z
        .string()
        .trim()
        .min(1, { error: () => say('Say why: counted, found, lost, spoilt.') })
        .max(500),
    })
    .transform(({ partBefore, part, partCertainty, ...counted }, context) => {
      const read = readPart({ part, partCertainty }, figures, context)
      if (!read) return z.NEVER
      return { ...counted, ...read, partStrandTenths: asItWas(read.partStrandTenths, partBefore, figures) ?? 0 }
    })

export const relabelSchema = (figures: Figures) =>
  z
    .object({
      ...batchFields,
      lot: optionalText(100),
      putUpWord: optionalText(40).transform((word) => word && putUpMeant(word)),
      putUpStrandTenths: length(figures).refine((value) => value !== null, {
        error: () => say('Give the length of one, such as 8 m.'),
      }),
      /** The length as it was, in tenths of one strand: the form shows it rounded, and left alone it must not change. */
      putUpBefore: z.coerce.number().int().min(1),
      reason: z
        .string()
        .trim()
        .min(1, { error: () => say('Say why: misread, written down wrongly.') })
        .max(500),
    })
    .transform(({ putUpBefore, putUpStrandTenths, ...label }) => ({
      ...label,
      putUpStrandTenths: asItWas(putUpStrandTenths, putUpBefore, figures) ?? putUpBefore,
    }))

const parting = { wholePutUps: count, takesPart: isTicked }
const isParted = { path: ['wholePutUps'], error: () => say('Say how many, or tick the part.') }

export const passOnSchema = z
  .object({
    ...batchFields,
    toOwnerId: z
      .string()
      .min(1, { error: () => say('Choose the new owner.') })
      .max(64),
    howMuch: z.enum(['all', 'some']).default('all'),
    ...parting,
    reason,
  })
  .refine((pass) => pass.howMuch === 'all' || pass.wholePutUps > 0 || pass.takesPart, isParted)

export const splitSchema = z
  .object({
    ...batchFields,
    ...parting,
    place: z.string().trim().max(100).default(''),
    stay: z.enum(['home', 'while']).default('home'),
    reason,
  })
  .refine((split) => split.wholePutUps > 0 || split.takesPart, isParted)

export const mergeSchema = z.object({
  ...batchFields,
  intoBatchId: z
    .string()
    .min(1, { error: () => say('Choose the other one.') })
    .max(64),
  reason,
})

export const releaseSchema = z.object({ projectId: idText, batchId: idText, threadId: idText })

export const receiveSchema = (figures: PartFigures) =>
  z
    .object({
      threadId: idText,
      ownerId: z
        .string()
        .min(1, { error: () => say('Choose whose it is.') })
        .max(64),
      lot: optionalText(100),
      putUpWord: optionalText(40).transform((word) => word && putUpMeant(word)),
      putUpStrandTenths: length(figures),
      ...partFields,
      place: z.string().trim().max(100).default(''),
      reason,
    })
    .transform(({ part, partCertainty, ...goods }, context) => {
      const full = goods.putUpStrandTenths === null ? figures : fullOfLength(figures, goods.putUpStrandTenths)
      const read = readPart({ part, partCertainty }, { ...full, unit: figures.unit }, context)
      return read ? { ...goods, ...read } : z.NEVER
    })

const choiceOrNone = <Choice extends string>(choices: readonly Choice[], message: Sentence) =>
  z
    .string()
    .default('')
    .transform((text, context) => {
      const choice = text === '' ? null : choices.find((known) => known === text)
      if (choice !== undefined) return choice
      context.addIssue({ code: 'custom', message: sentenceText(message) })
      return z.NEVER
    })

/** Heavier than any cone of thread; the column holds two hundred times as much. */
const mostGrams = 10_000
const mostPriceMinor = 100_000_000

const threadFields = {
  code: z
    .string()
    .trim()
    .min(1, { error: () => say('Give the code as it stands on the label, zeros and all.') })
    .max(100),
  name: optionalText(200),
  lab: optionalRead(parseColour, () => say('A colour is such as #8e2f2b, or three Lab figures: 36.2 41 27.5.')),
  labCertainty: choiceOrNone(labCertainties, () => say('Choose how it is known.')),
  family: choiceOrNone(colourFamilies, () => say('Choose one of the families.')),
  isLeaving: isTicked,
  minimumPutUps: putUps(() => say('The number to keep is a whole number, such as 2.')),
  note: optionalText(4_000),
}

const lineFields = (unit: ThreadLengthUnit) => ({
  makerName: z
    .string()
    .trim()
    .min(1, { error: () => say('Name the maker.') })
    .max(200),
  lineName: z.string().trim().max(200).default(''),
  fibre: optionalText(100),
  strands: z
    .string()
    .trim()
    .transform((text, context) => {
      const value = parseWholeNumber(text)
      if (value !== null && value >= 1 && value <= 100) return value
      context.addIssue({ code: 'custom', message: say('Strands are a whole number from 1 to 100.') })
      return z.NEVER
    }),
  putUpTenths: length({ unit, strands: 1 }).refine((value) => value !== null, {
    error: () => say('Give the length of one, such as 8 m.'),
  }),
  putUpWord: z
    .string()
    .trim()
    .min(1, { error: () => say('Say what one is called: skein, hank, spool.') })
    .max(40)
    .transform(putUpMeant),
  putUpGrams: optionalRead(
    (text) => {
      const milligrams = Math.round((parseNumber(text) ?? 0) * 1_000)
      return milligrams >= 1 && milligrams <= mostGrams * 1_000 ? milligrams : null
    },
    () => say('A weight is in grams, such as 4.2.'),
  ),
  price: optionalRead(
    (text) => {
      const price = parsePrice(text)
      return price && price.minor <= mostPriceMinor ? price.minor : null
    },
    () => say('Give the price of one as 1.15, or leave it out.'),
  ),
  dyeing: z.enum(dyeings),
  lotsMatter: isTicked,
  working: z.enum(['rows', 'crosses']),
})

export const addThreadSchema = z.object({
  lineId: z
    .string()
    .min(1, { error: () => say('Choose the line.') })
    .max(64),
  ...threadFields,
})
export const addThreadAndLineSchema = (unit: ThreadLengthUnit) => z.object({ ...lineFields(unit), ...threadFields })
export const editThreadSchema = z
  .object({
    threadId: idText,
    version: versionText,
    ...threadFields,
    /** The colour as it was: the form shows it rounded, and left alone it must not change. */
    labBefore: z.string().max(100).default(''),
  })
  .transform(({ labBefore, lab, ...facts }) => {
    const before = parseColour(labBefore)
    const isUntouched = lab !== null && before !== null && formatColour(lab) === formatColour(before)
    return { ...facts, lab: isUntouched ? before : lab }
  })
export const editLineSchema = (unit: ThreadLengthUnit) => z.object({ lineId: idText, version: versionText, ...lineFields(unit) })
export const removeThreadSchema = z.object({ threadId: idText, version: versionText })
export const addStandInSchema = z.object({
  threadId: idText,
  standIn: z
    .string()
    .trim()
    .min(1, { error: () => say('Name the thread, such as Larkholm 0017.') })
    .max(300),
  source: optionalText(300),
})
export const removeStandInSchema = z.object({ standInId: idText })
