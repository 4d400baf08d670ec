import { findChoiceJob } from '#lib/db/planning/choice-jobs'

/** How far a choice is, asked for over and over by its page. */
export async function GET(_request: Request, { params }: { params: Promise<{ jobId: string }> }): Promise<Response> {
  const job = findChoiceJob((await params).jobId)
  const said = job?.state === 'running' ? { state: job.state, progress: job.progress } : job && { state: job.state }
  return Response.json(said, { status: job === null ? 404 : 200, headers: { 'cache-control': 'no-store' } })
}
