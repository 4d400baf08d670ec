import { classSheetPdf } from '#lib/printing/pdf/kit-sheets-pdf'
import { dayOf } from '#words/date'
import { listFile } from '../list-file'
import { listSheet } from '../list-rows'

export const GET = listFile('pdf', 'application/pdf', async ({ said, search, ...list }) => {
  const createdAt = new Date()
  const paper = search.get('paper') === 'letter' ? 'letter' : 'a4'
  return new Uint8Array(await classSheetPdf(listSheet(list, dayOf(createdAt), said), { paper, createdAt }))
})
