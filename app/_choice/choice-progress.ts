import { findChoiceJob } from '#lib/db/planning/together/choice-jobs'

/** How far a choice is, asked for over and over by its page. */
export async function answerChoiceProgress(
  _request: Request,
  { params }: { params: Promise<{ jobId: string }> },
): Promise<Response> {
  const job = await findChoiceJob((await params).jobId)
  const headers = { 'cache-control': 'no-store' }
  if (!job) return Response.json(null, { status: 404, headers })
  if (job.state !== 'running') return Response.json({ isRunning: false }, { headers })
  const { seconds, progress } = job
  return Response.json({ isRunning: true, seconds, progress }, { headers })
}
