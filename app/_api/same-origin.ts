import { isFromOtherSite } from '#lib/access/other-site'
import { who } from '#lib/db/access/asking'
import { Problem } from './problem'

/** Whether a page of another site asks; a program that signed in by its token alone is not one. */
export function refuseOtherSites(request: Request): Problem | null {
  const asks = who()
  if (asks.kind === 'account' && asks.by.kind === 'token') return null
  const host = request.headers.get('host') ?? new URL(request.url).host
  const from = { site: request.headers.get('sec-fetch-site'), origin: request.headers.get('origin'), host }
  return isFromOtherSite(from) ? new Problem('cross-origin', 'Only this server’s own pages may do that.') : null
}
