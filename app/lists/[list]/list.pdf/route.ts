import { say } from '#language/say'
import { classSheetPdf } from '#lib/printing/pdf/kit-sheets-pdf'
import { dayOf } from '#words/date'
import { listPages } from '../../../_lists/list-pages'
import { listWords } from '../../../_lists/list-rows'
import { fileOf, listRoute, refusal } from '../ticked'

/** Some hundred pages; beyond, nobody reads it on paper. */
const mostRows = 6_000

export const { GET, POST } = listRoute(async ({ list, rows, withPlaces, search }) => {
  if (rows.length === 0) return refusal(say('Nothing is on the list: tick what goes on it.'), 422)
  if (rows.length > mostRows) return refusal(say('The list is too long to print. Tick less, or take it as CSV.'), 422)
  const createdAt = new Date()
  const paper = search.get('paper') === 'letter' ? 'letter' : 'a4'
  const pages = listPages(listWords()[list].title, dayOf(createdAt), rows, withPlaces)
  return fileOf(new Uint8Array(await classSheetPdf(pages, { paper, createdAt })), list, 'pdf', 'application/pdf')
})
