import { importProgress } from '#lib/db/importing/import-jobs'

/** How far an import is, asked for over and over by its page. */
export async function GET(_request: Request, { params }: { params: Promise<{ jobId: string }> }): Promise<Response> {
  const progress = await importProgress((await params).jobId)
  return Response.json(progress, { status: progress === null ? 404 : 200, headers: { 'cache-control': 'no-store' } })
}
