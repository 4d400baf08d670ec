import { z } from 'zod'
import { type FamilyChoice, familyChoices, type ThreadFilter, type ThreadOrder, threadOrders } from '#lib/db/thread/list-threads'
import { type StockState, stockStates } from '#lib/db/thread/summarise-stock'

const one = z.string().trim().max(200).catch('')

const filterSchema = z.object({
  maker: one,
  line: one,
  place: one,
  family: z.enum(familyChoices).or(z.literal('')).catch(''),
  stock: z.enum(stockStates).or(z.literal('')).catch(''),
  text: one,
  order: z.enum(threadOrders).catch('drawer'),
  page: z.coerce.number().int().min(1).max(100_000).catch(1),
})

/** The choices above the list, as they stand in the address. Empty text is no choice. */
export type ThreadChoices = Omit<z.infer<typeof filterSchema>, 'stock' | 'family' | 'order'> & {
  stock: StockState | ''
  family: FamilyChoice | ''
  order: ThreadOrder
}

export const readChoices = (searchParams: Record<string, string | string[] | undefined>): ThreadChoices =>
  filterSchema.parse(searchParams)

/** The list's address for some choices. */
export function hrefOf(choices: Partial<ThreadChoices>): string {
  const query = new URLSearchParams()
  for (const [name, value] of Object.entries(choices)) {
    const isUsual = value === '' || (name === 'page' && value === 1) || (name === 'order' && value === 'drawer')
    if (!isUsual) query.set(name, String(value))
  }
  const search = query.toString()
  return search ? `/threads?${search}` : '/threads'
}

/** What narrows the list, as `listThreads` takes it. */
export const filterOf = (choices: ThreadChoices): ThreadFilter => ({
  makerId: choices.maker || null,
  lineId: choices.line || null,
  placeId: choices.place || null,
  text: choices.text,
  state: choices.stock || null,
  family: choices.family || null,
})
