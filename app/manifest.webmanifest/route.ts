import { findLanguage } from '#language/languages'
import { asking, whileAsking } from '#lib/db/access/asking'
import { manifest } from '../_offline/manifest'

/** A browser fetches it without cookies, so the page that names it says in its address what language it is in. */
export function GET(request: Request): Response {
  const asked = findLanguage(new URL(request.url).searchParams.get('language'))
  const held = asking()
  const said = asked && held ? whileAsking({ ...held, language: asked.key }, manifest) : manifest()
  return Response.json(said, { headers: { 'Content-Type': 'application/manifest+json', 'Cache-Control': 'private, no-cache' } })
}
