import { createReadStream } from 'node:fs'
import { Readable } from 'node:stream'
import { keepersOnly } from '#api/keepers-only'
import { say } from '#language/say'
import { mayDo } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { findBackupFile } from '#lib/db/backup/list-backups'

const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'no-store' }

/** A backup to keep elsewhere, a piece at a time. */
export async function GET(_request: Request, { params }: { params: Promise<{ name: string }> }): Promise<Response> {
  if (!mayDo(who(), 'keep')) return keepersOnly()
  const { name } = await params
  const found = await findBackupFile(name)
  if (found === null)
    return new Response(say('There is no such backup.'), {
      status: 404,
      headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' },
    })
  return new Response(Readable.toWeb(createReadStream(found.file)) as ReadableStream<Uint8Array>, {
    headers: {
      ...headers,
      'content-type': 'application/zip',
      'content-length': String(found.bytes),
      'content-disposition': `attachment; filename="${name}"`,
    },
  })
}
