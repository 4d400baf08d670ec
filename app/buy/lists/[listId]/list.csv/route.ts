import { listFile } from '../list-file'
import { listCsv } from '../list-rows'

// With the mark that tells spreadsheets it is UTF-8.
export const GET = listFile('csv', 'text/csv; charset=utf-8', ({ said, ...list }) => `\uFEFF${listCsv(list, said)}`)
