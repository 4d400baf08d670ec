const longest = 1_000

/**
 * Where to go after signing in: a path of this server, whatever a stranger put into the link. Anything a browser could take for another
 * server's address, and what is no page, becomes the first page.
 */
export function safeReturnPath(asked: string | null | undefined): string {
  if (!asked?.startsWith('/') || asked.length > longest || /[\\\p{Cc}\s]/u.test(asked)) return '/'
  const base = 'http://larder.invalid'
  if (!URL.canParse(asked, base)) return '/'
  const { origin, pathname, search } = new URL(asked, base)
  if (origin !== base || pathname.startsWith('//') || /^\/(sign-in|sign-out|not-allowed|api|_next)(\/|$)/.test(pathname))
    return '/'
  return `${pathname}${search}`
}
