import { findPhoto } from '#lib/db/photo/photo-files'

/** A photo never changes under its name, so it may be kept for good; it is shown, never run. */
const headers = {
  'content-type': 'image/webp',
  'cache-control': 'private, max-age=31536000, immutable',
  'x-content-type-options': 'nosniff',
  'content-security-policy': "default-src 'none'; sandbox",
  'cross-origin-resource-policy': 'same-origin',
  'content-disposition': 'inline',
}

export async function GET(_request: Request, { params }: { params: Promise<{ name: string }> }): Promise<Response> {
  const photo = await findPhoto((await params).name)
  if (photo === null) {
    return new Response('There is no such photo.', {
      status: 404,
      headers: { 'content-type': 'text/plain; charset=utf-8', 'x-content-type-options': 'nosniff', 'cache-control': 'no-store' },
    })
  }
  return new Response(photo, { headers })
}
