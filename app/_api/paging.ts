import { z } from 'zod'
import { Problem } from './problem'
import { idText } from './quantities'

const mostPerPage = 200

export const pageQuery = {
  limit: z.coerce.number().int().min(1).max(mostPerPage).default(50).meta({ description: 'How many at most.' }),
  after: idText.optional().meta({ description: 'The `next` of the page before.' }),
}

export const nextField = z
  .string()
  .nullable()
  .meta({ description: 'Hand it over as `after` for the following page; null on the last.' })

/** One page of a list at hand, the cursor being the id of the last entry of the page before. */
export function pageOf<Item>(
  items: readonly Item[],
  page: { limit: number; after?: string | undefined },
  idOf: (item: Item) => string,
): { shown: Item[]; next: string | null } | Problem {
  const { limit, after } = page
  const start = after === undefined ? 0 : items.findIndex((item) => idOf(item) === after) + 1
  if (after !== undefined && start === 0) {
    const errors = [{ parameter: 'after', message: 'It is not in the list any more.', accepted: 'the next of the page before' }]
    return new Problem('bad-parameter', 'after: what the page before ended with is not in the list any more. Start again.', {
      errors,
    })
  }
  const shown = items.slice(start, start + limit)
  const last = shown.at(-1)
  return { shown, next: last !== undefined && start + limit < items.length ? idOf(last) : null }
}

export const numberedPageQuery = {
  limit: pageQuery.limit,
  after: z.coerce.number().int().min(1).max(1_000_000_000).optional().meta({ description: 'The `next` of the page before.' }),
}

/** The cursor after so many entries, for lists that count them; null when that was the last page. */
export const nextAfter = (shown: number, total: number): string | null => (shown < total ? String(shown) : null)
