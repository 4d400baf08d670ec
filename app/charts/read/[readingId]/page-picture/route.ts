import { say } from '#language/say'
import { findStagedReading, readStagedCover, readStagedStraight } from '#lib/db/reading/reading-store'
import { getViewer } from '#viewer/viewer'

/** The first page of what is being looked over, as the boxes of its words stand in it, for whoever it belongs to. */
export async function GET(_request: Request, { params }: { params: Promise<{ readingId: string }> }): Promise<Response> {
  const staged = await findStagedReading((await params).readingId, (await getViewer()).ownerIds)
  const picture = staged && ((await readStagedStraight(staged.id)) ?? (await readStagedCover(staged.id)))
  const plain = { 'cache-control': 'no-store', 'x-content-type-options': 'nosniff' }
  if (!picture)
    return new Response(say('There is no such page.'), {
      status: 404,
      headers: { 'content-type': 'text/plain; charset=utf-8', ...plain },
    })
  return new Response(picture, {
    headers: {
      ...{ 'content-type': 'image/webp', ...plain, 'content-disposition': 'inline' },
      ...{ 'content-security-policy': "default-src 'none'; sandbox", 'cross-origin-resource-policy': 'same-origin' },
    },
  })
}
