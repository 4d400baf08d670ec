/**
 * A page of another site may make a browser send a form or a simple request here, with nobody asking it to. Browsers say where such a
 * request comes from in Sec-Fetch-Site, older ones in Origin alone; programs send neither.
 */
export function isFromOtherSite({ site, origin, host }: { site: string | null; origin: string | null; host: string }): boolean {
  const isOtherSite = site !== null && site !== 'same-origin' && site !== 'none'
  const isOtherOrigin = origin !== null && (!URL.canParse(origin) || new URL(origin).host !== host.toLowerCase())
  return isOtherSite || isOtherOrigin
}
