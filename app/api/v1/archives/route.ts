import { listArchivesOperation, writeArchiveOperation } from '#api/archives'
import { describeArchiveJob, describeKeptArchive, tooManyArchives } from '#api/describe-archive'
import { endpoint, serve } from '#api/serve'
import { listArchives } from '#lib/db/archive/archive-files'
import { startTakeOut } from '#lib/db/archive/archive-jobs'
import { peopleSheets } from '#lib/db/archive/collection-workbook'

const list = serve(listArchivesOperation, async () => ({
  archives: (await listArchives()).map(describeKeptArchive),
  sheets: (['everything', ...peopleSheets] as const).map((sheet) => ({ sheet, href: `/archive/sheets/${sheet}.xlsx` })),
}))

const begin = serve(writeArchiveOperation, async () => {
  const started = await startTakeOut()
  return started.ok ? describeArchiveJob(started.value) : tooManyArchives()
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: begin })
