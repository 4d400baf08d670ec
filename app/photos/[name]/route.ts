import { findShownPhoto } from '#lib/db/photo/shown-photo'

/** A photo never changes under its name, so it may be kept for good; it is shown, never run. */
const headers = {
  'cache-control': 'private, max-age=31536000, immutable',
  vary: 'Accept',
  'x-content-type-options': 'nosniff',
  'content-security-policy': "default-src 'none'; sandbox",
  'cross-origin-resource-policy': 'same-origin',
  'content-disposition': 'inline',
}

export async function GET(request: Request, { params }: { params: Promise<{ name: string }> }): Promise<Response> {
  const takesAvif = /\bimage\/avif\b/.test(request.headers.get('accept') ?? '')
  const photo = await findShownPhoto((await params).name, takesAvif)
  if (photo === null) {
    return new Response('There is no such photo.', {
      status: 404,
      headers: { 'content-type': 'text/plain; charset=utf-8', 'x-content-type-options': 'nosniff', 'cache-control': 'no-store' },
    })
  }
  return new Response(photo.bytes, { headers: { 'content-type': photo.mime, ...headers } })
}
