import { readYear } from '#lib/db/finish/read-finishes'
import { toCsv } from '#lib/importing/escape-csv'
import { getViewer } from '#viewer/viewer'
import { yearSchema } from '../../schema'
import { monthCells } from '../month-cells'

/** A year by the month, as a file for spreadsheets. */
export async function GET(_request: Request, { params }: { params: Promise<{ year: string }> }): Promise<Response> {
  const year = yearSchema.safeParse((await params).year)
  if (!year.success) return new Response('There is no such year.', { status: 404 })
  const { ownerIds } = await getViewer()
  const { heads, rows } = monthCells(await readYear(ownerIds, year.data))
  return new Response(`\uFEFF${toCsv([heads, ...rows])}`, {
    headers: {
      'x-content-type-options': 'nosniff',
      'cache-control': 'private, no-store',
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': `attachment; filename="months-${year.data}.csv"`,
    },
  })
}
