import { listCsv } from '../../../_lists/list-rows'
import { fileOf, listRoute } from '../ticked'

export const { GET, POST } = listRoute(async ({ list, rows, withPlaces }) =>
  // With the mark that tells spreadsheets it is UTF-8.
  fileOf(`\uFEFF${listCsv(rows, { withPlaces })}`, list, 'csv', 'text/csv; charset=utf-8'),
)
