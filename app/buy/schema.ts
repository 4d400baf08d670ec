import { z } from 'zod'
import { idText, isTicked, optionalRead, optionalText, versionText } from '#forms/fields'
import { say } from '#language/say'
import { parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'

const mostPutUps = 10_000
/** A kilometre of thread as sold. */
const mostTenths = 10_000_000
const day = z.iso.date({ error: () => say('A date is such as 2026-09-22.') })
const optionalDay = z
  .union([z.literal(''), day])
  .default('')
  .transform((text) => (text === '' ? null : text))

const putUps = (least: number) =>
  z
    .string()
    .trim()
    .default('')
    .transform((text, context) => {
      const value = parseWholeNumber(text)
      if (value !== null && value >= least && value <= mostPutUps) return value
      context.addIssue({ code: 'custom', message: say('How many is a whole number from {least} to 10,000.', { least }) })
      return z.NEVER
    })

const orderFields = {
  supplier: optionalText(200),
  orderedOn: day,
  expectedOn: optionalDay,
}

const ownerId = z
  .string()
  .min(1, { error: () => say('Choose whose order it is.') })
  .max(64)

/** The name of the box that says how many of a thread were ordered, and of what goes with it unseen. */
export const putUpsField = (threadId: string) => `putUps.${threadId}`
export const itemField = (threadId: string) => `item.${threadId}`

const itemSchema = z.strictObject({
  orderId: idText,
  putUpStrandTenths: z.int().min(1).max(1_000_000_000),
  lot: z.string().max(100).nullable(),
})
export type HiddenItem = z.infer<typeof itemSchema>

const jsonOf = (text: string): unknown => {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

/** A list with a box for each thread; empty boxes and noughts were not ordered. */
export const orderListSchema = z
  .looseObject({ ownerId, ...orderFields })
  .transform(({ ownerId: owner, supplier, orderedOn, expectedOn, ...boxes }, context) => {
    const items: (HiddenItem & { threadId: string; putUps: number })[] = []
    for (const [name, value] of Object.entries(boxes)) {
      if (!name.startsWith('putUps.') || typeof value !== 'string' || value.trim() === '') continue
      const threadId = name.slice('putUps.'.length)
      const ordered = putUps(0).safeParse(value)
      const hidden = itemSchema.safeParse(jsonOf(String(boxes[itemField(threadId)] ?? '')))
      if (!ordered.success || !hidden.success) {
        context.addIssue({ code: 'custom', path: [name], message: say('How many is a whole number, such as 3; empty for none.') })
      } else if (ordered.data > 0) items.push({ ...hidden.data, threadId, putUps: ordered.data })
    }
    return { ownerId: owner, supplier, orderedOn, expectedOn, items }
  })

export const orderByHandSchema = (figures: { unit: ThreadLengthUnit }) =>
  z.object({
    orderId: idText,
    ownerId,
    thread: z
      .string()
      .trim()
      .min(1, { error: () => say('Name the thread, such as Larkholm 0017.') })
      .max(300),
    putUps: putUps(1),
    putUpTenths: optionalRead(
      (text) => {
        const tenths = parseThreadLength(text, figures.unit)
        return tenths !== null && tenths > 0 && tenths <= mostTenths ? tenths : null
      },
      () => say('A length is such as 8 m or 5 yd, up to 1,000 m.'),
    ),
    lot: optionalText(100),
    note: optionalText(1_000),
    ...orderFields,
  })

export const editOrderSchema = z.object({
  orderId: idText,
  version: versionText,
  putUps: putUps(1),
  lot: optionalText(100),
  note: optionalText(1_000),
  ...orderFields,
})

export const receiveOrderSchema = z.object({
  orderId: idText,
  version: versionText,
  putUps: putUps(1),
  lot: optionalText(100),
  place: z.string().trim().max(100).default(''),
  closes: isTicked,
})

export const closeOrderSchema = z.object({
  orderId: idText,
  version: versionText,
  isClosed: z.enum(['yes', 'no']).transform((text) => text === 'yes'),
})
