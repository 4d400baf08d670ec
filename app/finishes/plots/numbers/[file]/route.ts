import { z } from 'zod'
import { say } from '#language/say'
import { readPlots } from '#lib/db/plots/read-plots'
import { toCsv } from '#lib/importing/escape-csv'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { plotCells, plotNames } from '#words/plots'

const fileSchema = z
  .string()
  .transform((file) => file.replace(/\.csv$/, ''))
  .pipe(z.enum(plotNames))

/** One picture's numbers as a file for spreadsheets. */
export async function GET(_request: Request, { params }: { params: Promise<{ file: string }> }): Promise<Response> {
  const name = fileSchema.safeParse((await params).file)
  if (!name.success) return new Response(say('There is no such picture.'), { status: 404 })
  const { ownerIds, settings } = await getViewer()
  const plots = await readPlots({ ownerIds, today: calendarDay(new Date()) })
  const { heads, rows } = plotCells(name.data, plots, settings.lengthUnit)
  return new Response(`\uFEFF${toCsv([heads, ...rows])}`, {
    headers: {
      'x-content-type-options': 'nosniff',
      'cache-control': 'private, no-store',
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': `attachment; filename="${name.data}.csv"`,
    },
  })
}
