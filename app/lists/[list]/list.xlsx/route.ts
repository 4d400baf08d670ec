import { say } from '#language/say'
import { mostSheetRows } from '#lib/db/archive/collection-workbook'
import { writeWorkbook } from '#lib/db/archive/write-workbook'
import { listSheet, listWords } from '../../../_lists/list-rows'
import { fileOf, listRoute, refusal } from '../ticked'

const mime = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'

export const { GET, POST } = listRoute(async ({ list, rows, withPlaces }) => {
  if (rows.length > mostSheetRows) return refusal(say('The list is too long for a workbook. Take it as CSV.'), 422)
  const workbook = await writeWorkbook([listSheet(listWords()[list].title, rows, { withPlaces })])
  return fileOf(new Uint8Array(workbook), list, 'xlsx', mime)
})
