/**
 * How a link to `href` is marked while the person stands at `pathname`: `page` for the very page, `true` for one below it.
 * The home page holds every other page below it, so it is marked only when it is the very page.
 */
export function findCurrentMark(pathname: string, href: string): 'page' | 'true' | undefined {
  if (pathname === href) return 'page'
  return href !== '/' && pathname.startsWith(`${href}/`) ? 'true' : undefined
}
