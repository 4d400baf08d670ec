import { z } from 'zod'

const ids = z
  .union([z.string(), z.array(z.string())])
  .transform((value) => [
    ...new Set(
      [value]
        .flat()
        .filter((one) => one !== '' && one.length <= 64)
        .slice(0, 50),
    ),
  ])
  .catch([])

/** What the list is for, as it stands in its address; what does not read is left out. */
export const buyChoicesSchema = z.object({
  design: ids,
  /** The thread list a design is reckoned by, where it has several. */
  list: ids,
  project: ids,
  q: z.string().trim().max(200).catch(''),
  maker: z.string().max(64).catch(''),
  prices: z
    .literal('1')
    .transform(() => true)
    .catch(false),
})
export type BuyChoices = z.infer<typeof buyChoicesSchema>

export function buyHref({ design, list, project, q, maker, prices }: BuyChoices): string {
  const query = new URLSearchParams()
  for (const [name, values] of Object.entries({ design, list, project })) for (const id of values) query.append(name, id)
  if (q !== '') query.set('q', q)
  if (maker !== '') query.set('maker', maker)
  if (prices) query.set('prices', '1')
  const search = query.toString()
  return search === '' ? '/buy' : `/buy?${search}`
}

/** Where only the page is asked for. */
export const pageSchema = z.object({ page: z.coerce.number().int().min(1).max(100_000).catch(1) })
