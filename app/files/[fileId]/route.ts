import { say } from '#language/say'
import { readFileOf } from '#lib/db/file/queries'
import { getViewer } from '#viewer/viewer'

/** A kept file, for whoever looks after its owner's goods, and for nobody else: sent to be saved, never shown, run or kept on the way. */
export async function GET(_request: Request, { params }: { params: Promise<{ fileId: string }> }): Promise<Response> {
  const file = await readFileOf((await params).fileId, (await getViewer()).ownerIds)
  const plain = { 'cache-control': 'no-store', 'x-content-type-options': 'nosniff' }
  if (file === null) {
    return new Response(say('There is no such file among the goods you look at.'), {
      status: 404,
      headers: { 'content-type': 'text/plain; charset=utf-8', ...plain },
    })
  }
  return new Response(file.bytes, {
    headers: {
      'content-type': file.mime,
      'content-length': String(file.bytes.length),
      'content-disposition': `attachment; filename="${asciiName(file.name)}"; filename*=UTF-8''${encodeName(file.name)}`,
      'content-security-policy': "default-src 'none'; sandbox",
      'cross-origin-resource-policy': 'same-origin',
      ...plain,
    },
  })
}

/** For programs that read no other: what is not plain becomes an underscore. */
const asciiName = (name: string): string => name.replace(/[^\x20-\x7e]|["\\%]/gu, '_')

/** As RFC 8187 has it: what encodeURIComponent leaves alone but may not stand there is written out too. */
const encodeName = (name: string): string =>
  encodeURIComponent(name.replace(/\p{Cs}/gu, '')).replace(
    /['()*]/gu,
    (mark) => `%${mark.charCodeAt(0).toString(16).toUpperCase()}`,
  )
