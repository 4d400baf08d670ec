import { z } from 'zod'
import type { FilingRequest } from '#lib/db/filing/read-filing'
import { filingWays } from '#lib/place/filing-moves'
import { parseCodeList } from '#lib/thread/code-list'
import { filingOrders } from '#lib/thread/filing-order'

/** More codes at once are left out of the plan. */
export const mostCodes = 1_000
const mostCompartments = 400
const usualCompartments = 40
const usualPercent = 75

const figure = (most: number, usual: number) => z.coerce.number().int().min(1).max(most).catch(usual)

export const filingChoicesSchema = z.object({
  line: z.string().max(64).catch(''),
  order: z.enum(filingOrders).catch('number'),
  capacity: figure(mostCompartments, usualCompartments),
  fill: figure(100, usualPercent),
  codes: z.string().max(20_000).catch(''),
  unplaced: z.literal('1').optional().catch(undefined),
  way: z.enum(filingWays).optional().catch(undefined),
})

export type FilingChoices = z.infer<typeof filingChoicesSchema>

/** What the choices ask of the plan. */
export const requestOf = (choices: FilingChoices, lineId: string, ownerIds: readonly string[]): FilingRequest => ({
  lineId,
  ownerIds,
  order: choices.order,
  capacity: choices.capacity,
  percent: choices.fill,
  codes: parseCodeList(choices.codes).slice(0, mostCodes),
  takesUnplaced: choices.unplaced === '1',
})

/** The choices as a query string, some of them otherwise. */
export function searchOf(choices: FilingChoices, other: Partial<FilingChoices> = {}): string {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries({ ...choices, ...other }))
    if (value !== undefined && value !== '') search.set(name, String(value))
  return search.toString()
}

export const carryOutSchema = z.object({
  /** The query string of the plan. */
  search: z.string().max(30_000),
  way: z.enum(filingWays),
  fingerprint: z.string().min(1).max(100),
  who: z.string().trim().max(200).default(''),
})
