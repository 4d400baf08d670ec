import { keepersOnly } from '#api/keepers-only'
import { mayDo } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { findBackupJob } from '#lib/db/backup/backup-jobs'

/** How far a backup is, asked for over and over by its page. */
export async function GET(_request: Request, { params }: { params: Promise<{ jobId: string }> }): Promise<Response> {
  if (!mayDo(who(), 'keep')) return keepersOnly()
  const job = await findBackupJob((await params).jobId)
  const headers = { 'cache-control': 'no-store' }
  if (!job) return Response.json(null, { status: 404, headers })
  return Response.json({ isRunning: job.state.kind === 'running', progress: job.progress }, { headers })
}
