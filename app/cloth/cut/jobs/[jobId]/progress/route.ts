import { findCut } from '#lib/db/cut-plan/start-cut'
import { secondsRun } from '#lib/db/job/jobs'

/** How far a search is, asked for over and over by its page. */
export async function GET(_request: Request, { params }: { params: Promise<{ jobId: string }> }): Promise<Response> {
  const job = await findCut((await params).jobId)
  const headers = { 'cache-control': 'no-store' }
  if (!job) return Response.json(null, { status: 404, headers })
  const seconds = Math.round(secondsRun(job))
  return Response.json({ isRunning: job.state.kind === 'running', seconds, plan: job.plan }, { headers })
}
