import { toCsv } from '#lib/importing/escape-csv'
import { getViewer } from '#viewer/viewer'
import { insuranceRows } from '#words/insurance'
import { insuranceQuerySchema, insuredOwners, readInsurance } from '../../_worth/read-insurance'

/** Everything on the list as a file for spreadsheets. */
export async function GET(request: Request): Promise<Response> {
  const { owner } = insuranceQuerySchema.parse({ owner: new URL(request.url).searchParams.getAll('owner') })
  const { owners, settings } = await getViewer()
  const list = await readInsurance(insuredOwners(owners, owner), settings)
  return new Response(`\uFEFF${toCsv(insuranceRows(list))}`, {
    headers: {
      'x-content-type-options': 'nosniff',
      'cache-control': 'private, no-store',
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': 'attachment; filename="insurance-list.csv"',
    },
  })
}
