import { keepersOnly } from '#api/keepers-only'
import { say } from '#language/say'
import { mayDo } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { archiveStream, findArchive } from '#lib/db/archive/archive-files'

const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'private, no-store' }

/** An archive to keep, sent as fast as it is taken. */
export async function GET(_request: Request, { params }: { params: Promise<{ name: string }> }): Promise<Response> {
  if (!mayDo(who(), 'keep')) return keepersOnly()
  const archive = await findArchive((await params).name)
  if (archive === null)
    return new Response(say('There is no such archive any more. Write one under Everything in a file.'), {
      status: 404,
      headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' },
    })
  return new Response(archiveStream(archive.name), {
    headers: {
      ...headers,
      'content-type': 'application/zip',
      'content-length': String(archive.bytes),
      'content-disposition': `attachment; filename="${archive.name.slice(0, 'chart-larder-2026-11-30'.length)}.zip"`,
    },
  })
}
