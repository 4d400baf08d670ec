import type { Run } from '#lib/listing/runs'
import { type RowsAnswer, rowsAtOnce } from './rows-answer'
import { rowsAskedSchema } from './rows-asked'
import { searchOfUrl } from './search-of-url'

type WholeList<Row> = { revision: number; rows: readonly Row[]; runs: readonly Run[] }

/**
 * Answer what the window over a list asks for, where all of the list is at hand: rows from one on, or with `to` only the ids of a run.
 *
 * @param read   the list as the choices in the address find it
 * @param dress  puts to the rows that are answered what the list itself does not know
 */
export async function answerRows<Row extends { id: string }, Dressed = Row>(
  request: Request,
  read: (search: ReturnType<typeof searchOfUrl>) => Promise<WholeList<Row>>,
  dress?: (rows: readonly Row[]) => Promise<readonly Dressed[]>,
): Promise<Response> {
  const search = searchOfUrl(request.url)
  const asked = rowsAskedSchema.safeParse(search)
  if (!asked.success) return new Response(null, { status: 400 })
  const { from, to } = asked.data
  const { revision, rows, runs } = await read(search)
  if (to !== undefined) return Response.json({ ids: rows.slice(from, to + 1).map(({ id }) => id) })
  const some = rows.slice(from, from + rowsAtOnce)
  const answer: RowsAnswer<Row | Dressed> = {
    ...{ revision, total: rows.length, runs, from },
    rows: dress ? await dress(some) : some,
  }
  return Response.json(answer, { headers: { 'Cache-Control': 'no-store' } })
}
