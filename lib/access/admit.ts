import { isFromOtherSite } from './other-site'
import { safeReturnPath } from './return-path'
import type { Who } from './who'

/** What of a request decides whether it is let in. */
export type Knock = {
  method: string
  /** As it stands in the request's first line: path and query. */
  target: string
  /** Host, Sec-Fetch-Site, Origin and Accept, as they came. */
  host: string | null
  site: string | null
  origin: string | null
  accept: string
  /** The page's own scripts ask for a page's parts, or send one of its forms. */
  isRouterFetch: boolean
  isFormFetch: boolean
  /** Carries Authorization: Bearer. */
  hasToken: boolean
  /** Says that it came through another server. */
  isForwarded: boolean
  contentLength: number | null
}

export type House = {
  /** Whether anybody can sign in. */
  hasAccounts: boolean
  /** Whether it listens to more than its own machine. */
  isOnNetwork: boolean
  /** Whether the development server's own addresses are there. */
  isDevelopment: boolean
}

export type KnockRefusal =
  /** Asked for by a name or address that is not this machine's own, where nobody has to sign in. */
  | 'foreign-host'
  /** Came through another server, where nobody has to sign in. */
  | 'forwarded'
  /** Open to a network and nobody to keep it. */
  | 'no-keeper'
  | 'other-site'
  | 'too-large'
  | 'not-signed-in'
  | 'bad-token'

export type Admission =
  | { kind: 'in' }
  /** A person's page: to the sign-in page, and back here afterwards. */
  | { kind: 'sign-in'; returnTo: string }
  | { kind: 'refused'; why: KnockRefusal }

/** Forms and JSON have limits of their own below it; these take whole archives and backups, straight to the disk. */
const mostBytes = 64_000_000
/** A name and a password, or what a passkey answers. */
const mostBytesOfNobody = 30_000
const takesMore = /^\/(archive\/given|settings\/backups\/brought-in|api\/v1\/(archives|backups)\/.+)$/

/** A name or address by which only this machine itself is reached (RFC 6761, RFC 1122): another's name may lead here too, and is not meant. */
export function isLoopbackHost(host: string | null): boolean {
  const name = (host ?? '').toLowerCase().replace(/:\d+$/, '')
  return name === 'localhost' || name === '[::1]' || /^127\.\d{1,3}\.\d{1,3}\.\d{1,3}$/.test(name)
}

const pathOf = (target: string): string => target.split('?', 1)[0] ?? ''

/** No way of writing a path that somebody else may read as another. */
const isPlainPath = (path: string): boolean => !/\.\.|%2e|%2f|%5c|%00|\\|\/\//i.test(path)

/**
 * What is there for anybody: the sign-in page, what it is made of and its words, whether the program is up, and calendars, whose address is a secret.
 * A page's forms can be sent to any page's address, so nothing but a look is taken here, and signing in has addresses that are no page's.
 */
function isForAnybody({ method, target, isFormFetch }: Knock, isDevelopment: boolean): boolean {
  const path = pathOf(target)
  if (!isPlainPath(path) || isFormFetch) return false
  if (method === 'POST') return /^\/sign-in\/[\w-]+(\/[\w-]+)*$/.test(path)
  if (method !== 'GET' && method !== 'HEAD') return false
  if (isDevelopment && /^\/(_next|__nextjs[\w-]*)(\/|$)/.test(path)) return true
  return (
    path === '/sign-in' ||
    path.startsWith('/_next/static/') ||
    // Asked for by browsers, some without saying who asks.
    /^\/(icon\.svg|favicon\.ico|worker\.js|manifest\.webmanifest)$/.test(path) ||
    /^\/icons\/[\w-]+\.png$/.test(path) ||
    /^\/language\/[\w-]{1,64}\.js$/.test(path) ||
    /^\/api\/v1\/(health|ready)$/.test(path) ||
    /^\/calendar\/feed\/[\w-]{1,64}\.ics$/.test(path)
  )
}

const isLook = (method: string): boolean => method === 'GET' || method === 'HEAD' || method === 'OPTIONS'

/** Whether a request is let in, by whoever it says it is from. */
export function admit(knock: Knock, who: Who, house: House): Admission {
  const refused = (why: KnockRefusal): Admission => ({ kind: 'refused', why })
  if (!house.hasAccounts) {
    if (house.isOnNetwork) return refused('no-keeper')
    // A name somebody else gives out may be made to lead to this machine, and then its pages pass for ours.
    if (!isLoopbackHost(knock.host)) return refused('foreign-host')
    if (knock.isForwarded) return refused('forwarded')
  }
  const byToken = who.kind === 'account' && who.by.kind === 'token'
  if (!isLook(knock.method) && !byToken) {
    if (isFromOtherSite({ site: knock.site, origin: knock.origin, host: knock.host ?? '' })) return refused('other-site')
  }
  const path = pathOf(knock.target)
  if ((knock.contentLength ?? 0) > mostBytes && !takesMore.test(path)) return refused('too-large')
  if (who.kind === 'nobody' && !isLook(knock.method) && (knock.contentLength ?? Number.POSITIVE_INFINITY) > mostBytesOfNobody)
    return refused(isForAnybody(knock, house.isDevelopment) ? 'too-large' : knock.hasToken ? 'bad-token' : 'not-signed-in')
  if (who.kind !== 'nobody' || isForAnybody(knock, house.isDevelopment)) return { kind: 'in' }
  if (knock.hasToken) return refused('bad-token')
  const isPage = knock.isRouterFetch || knock.isFormFetch || /\btext\/html\b/.test(knock.accept)
  if (/^\/+api(\/|$)/.test(path) || !isPage) return refused('not-signed-in')
  return { kind: 'sign-in', returnTo: safeReturnPath(knock.target) }
}
