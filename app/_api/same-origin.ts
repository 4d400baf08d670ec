import { Problem } from './problem'

/**
 * A page of another site may make a browser send a form or a simple request here, with nobody asking it to. Browsers say where such a
 * request comes from in Sec-Fetch-Site, older ones in Origin alone; programs send neither.
 */
export function refuseOtherSites(request: Request): Problem | null {
  const site = request.headers.get('sec-fetch-site')
  const origin = request.headers.get('origin')
  const host = request.headers.get('host') ?? new URL(request.url).host
  const isOtherSite = site !== null && site !== 'same-origin' && site !== 'none'
  const isOtherOrigin = origin !== null && (!URL.canParse(origin) || new URL(origin).host !== host)
  return isOtherSite || isOtherOrigin ? new Problem('cross-origin', 'Only this server’s own pages may do that.') : null
}
