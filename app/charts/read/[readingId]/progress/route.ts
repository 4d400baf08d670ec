import { findReading } from '#lib/db/reading/reading-jobs'
import { findStagedReading } from '#lib/db/reading/reading-store'
import { getViewer } from '#viewer/viewer'
import { progressWords } from '../../../../_reading/words'

/** How far a reading is, asked for over and over by its page. */
export async function GET(_request: Request, { params }: { params: Promise<{ readingId: string }> }): Promise<Response> {
  const staged = await findStagedReading((await params).readingId, (await getViewer()).ownerIds)
  const headers = { 'cache-control': 'no-store' }
  if (!staged) return Response.json(null, { status: 404, headers })
  const { state } = staged
  if (state.kind === 'waiting') return Response.json({ isRunning: true, ...progressWords({ step: 'waiting' }) }, { headers })
  const job = state.kind === 'reading' ? await findReading(state.jobId) : null
  return Response.json(job ? { isRunning: true, ...progressWords(job.progress) } : { isRunning: false }, { headers })
}
