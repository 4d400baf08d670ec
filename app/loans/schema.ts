import { z } from 'zod'
import { idText, isTicked, optionalRead, optionalText, versionText } from '#forms/fields'
import { say } from '#language/say'
import type { LoanThing } from '#lib/db/loan/hand-over'
import { dueAfterWeeks, mostLoanWeeks } from '#lib/loan/loan'
import { peopleKinds } from '#lib/place/place'
import { parsePrice } from '#lib/quantity/money'
import { parseWholeNumber } from '#lib/quantity/number'

const dayText = z.iso.date({ error: () => say('Give a day as 2026-12-01.') })
const optionalDay = z
  .union([z.literal(''), dayText], { error: () => say('Give a day as 2026-12-01, or leave it blank.') })
  .default('')
  .transform((day) => (day === '' ? null : day))

const weeks = optionalRead(
  (text) => {
    const value = parseWholeNumber(text)
    return value !== null && value >= 1 && value <= mostLoanWeeks ? value : null
  },
  () => say('Weeks are a whole number from 1 to {mostLoanWeeks}.', { mostLoanWeeks }),
)

const name = z
  .string()
  .trim()
  .min(1, { error: () => say('Give the name of who has it.') })
  .max(100, { error: () => say('Keep it to 100 characters.') })
const reason = z
  .string()
  .trim()
  .min(1, { error: () => say('Say what for: every loan has its reason.') })
  .max(300, { error: () => say('Keep it to 300 characters.') })

const agreed = {
  withLabel: name,
  ownerId: idText,
  reason,
  fromOn: dayText,
  weeks,
  dueOn: optionalDay,
  note: optionalText(1_000),
  others: optionalText(2_000),
}

type Due = { fromOn: string; weeks: number | null; dueOn: string | null }

/** By weeks or by a day; said both ways they must agree. */
function checkDue({ fromOn, weeks: many, dueOn }: Due, context: z.RefinementCtx): void {
  if (many !== null && dueOn !== null && dueAfterWeeks(fromOn, many) !== dueOn)
    context.addIssue({ code: 'custom', path: ['dueOn'], message: say('Give the weeks or the day, not both.') })
}

const dueOf = ({ fromOn, weeks: many, dueOn }: Due): string | null => (many === null ? dueOn : dueAfterWeeks(fromOn, many))

export const lendSchema = z
  .object({ ...agreed, acceptsClash: isTicked })
  .superRefine(checkDue)
  .transform(({ weeks: _weeks, dueOn: _dueOn, ...rest }, context) => {
    const dueOn = dueOf({ ...rest, weeks: _weeks, dueOn: _dueOn })
    if (dueOn !== null) return { ...rest, dueOn, withKind: 'person' as const }
    context.addIssue({ code: 'custom', path: ['weeks'], message: say('Say until when: so many weeks, or a day.') })
    return z.NEVER
  })

export const sendSchema = z
  .object({
    ...agreed,
    withKind: z.enum(peopleKinds, { error: () => say('Choose who it is.') }),
    projectId: optionalText(64),
    projectVersion: versionText.optional(),
    price: optionalRead(
      (text) => parsePrice(text)?.minor ?? null,
      () => say('Give the price as 45.00, or leave it out.'),
    ),
    acceptsClash: isTicked,
  })
  .superRefine(checkDue)
  .transform(({ weeks: many, dueOn, price, ...rest }) => ({
    ...rest,
    dueOn: dueOf({ ...rest, weeks: many, dueOn }),
    priceMinor: price,
  }))

export const borrowSchema = z
  .object({ ...agreed, keptInLabel: optionalText(100) })
  .superRefine(checkDue)
  .transform(({ weeks: many, dueOn, ...rest }) => ({
    ...rest,
    dueOn: dueOf({ ...rest, weeks: many, dueOn }),
    withKind: 'person' as const,
  }))

const loan = { loanId: idText, version: versionText }

export const takeBackSchema = z.object({
  ...loan,
  on: dayText,
  note: optionalText(300),
  placeLabel: optionalText(100),
})
export const extendSchema = z.object({ ...loan, dueOn: optionalDay, acceptsClash: isTicked })
export const closeSchema = z.object({
  ...loan,
  on: dayText,
  note: z
    .string()
    .trim()
    .min(1, { error: () => say('Say how it was settled.') })
    .max(300),
})

/** The ticked things of a form: `take:chart:<id>` with the version seen, `many:chart:<id>` and `part:batch:<id>` beside it. */
export function readThings(values: Readonly<Record<string, string>>): LoanThing[] {
  const things: LoanThing[] = []
  for (const [name, value] of Object.entries(values)) {
    const [, noun, id] = /^take:(chart|batch|cloth|notion):(.{1,64})$/.exec(name) ?? []
    if (!noun || !id) continue
    const version = versionText.catch(-1).parse(value)
    const count = parseWholeNumber(values[`many:${noun}:${id}`] ?? '1')
    const many = count === null || count > 1_000_000 ? 0 : count
    if (noun === 'batch') {
      const takesPart = values[`part:batch:${id}`] !== undefined
      if (many > 0 || takesPart) things.push({ noun, id, version, wholePutUps: many, takesPart })
    } else if (noun === 'cloth') things.push({ noun, id, version })
    else if (many > 0) things.push({ noun: noun as 'chart' | 'notion', id, version, count: many })
  }
  const others = (values.others ?? '').split('\n').map((line) => line.replace(/\s+/gu, ' ').trim())
  for (const text of others) if (text !== '') things.push({ noun: 'text', text: text.slice(0, 200), count: 1 })
  return things
}

const many = z
  .union([z.string(), z.array(z.string())])
  .default([])
  .transform((said) => [said].flat().filter((id) => id.length > 0 && id.length <= 64))
  .catch([])

/** What is meant to go, as it stands in an address. */
export const thingsQuerySchema = z.object({
  chart: many,
  batch: many,
  cloth: many,
  notion: many,
  project: z.string().max(64).optional().catch(undefined),
  q: z.string().trim().max(200).catch('').default(''),
})
export type ThingsQuery = z.infer<typeof thingsQuerySchema>

/** The same things in an address, with one more. */
export function thingsHref(
  page: string,
  query: ThingsQuery,
  more: Partial<Record<'chart' | 'batch' | 'cloth' | 'notion', string>> = {},
): string {
  const params = new URLSearchParams()
  if (query.project) params.append('project', query.project)
  for (const noun of ['chart', 'batch', 'cloth', 'notion'] as const) {
    const ids = new Set([...query[noun], ...(more[noun] ? [more[noun]] : [])])
    for (const id of ids) params.append(noun, id)
  }
  const said = params.toString()
  return said === '' ? page : `${page}?${said}`
}
