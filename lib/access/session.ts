/** How long a device stays signed in, as moments in milliseconds. */
export type SessionTimes = { createdAtMs: number; usedAtMs: number; rotatedAtMs: number; expiresAtMs: number }

const minute = 60_000
const day = 24 * 60 * minute

/** Signed in anew after this at the latest (NIST SP 800-63B-4, section 2.1.3: 30 days for one factor). */
export const sessionLastsMs = 30 * day
/** Left alone for this long, it is signed out. */
export const sessionIdleMs = 7 * day
/** Another secret is given out after this. */
const rotatedAfterMs = day
/** The secret before is still taken for this long: other requests of the same page are under way with it. */
const formerIsGoodMs = minute
/** Its last use is written down once in this time, not at every request. */
const usedIsWrittenMs = 5 * minute

export const isSessionOver = ({ usedAtMs, expiresAtMs }: SessionTimes, nowMs: number): boolean =>
  nowMs >= expiresAtMs || nowMs - usedAtMs >= sessionIdleMs

export const isRotationDue = ({ rotatedAtMs }: SessionTimes, nowMs: number): boolean => nowMs - rotatedAtMs >= rotatedAfterMs

export const isFormerGood = ({ rotatedAtMs }: SessionTimes, nowMs: number): boolean => nowMs - rotatedAtMs < formerIsGoodMs

export const isUseToWrite = ({ usedAtMs }: SessionTimes, nowMs: number): boolean => nowMs - usedAtMs >= usedIsWrittenMs

/** 256 random bits in base64url. */
export const isSecret = (text: string): boolean => /^[\w-]{43}$/.test(text)

/**
 * The cookie's name. Over HTTPS its prefix makes a browser insist that it is Secure, of this host alone and for every path (RFC 6265bis,
 * section 4.1.3.2); a browser takes no such cookie over plain HTTP.
 */
export const sessionCookieName = (isHttps: boolean): string => (isHttps ? '__Host-larder-session' : 'larder-session')

/** The Set-Cookie line that hands a secret to a browser (RFC 6265bis, section 4.1). */
export const sessionCookie = (secret: string, { isHttps, lastsMs }: { isHttps: boolean; lastsMs: number }): string =>
  [
    `${sessionCookieName(isHttps)}=${secret}`,
    'Path=/',
    `Max-Age=${Math.max(0, Math.floor(lastsMs / 1000))}`,
    'HttpOnly',
    'SameSite=Lax',
    ...(isHttps ? ['Secure'] : []),
  ].join('; ')

/** The Set-Cookie line that takes it back. */
export const endedCookie = (isHttps: boolean): string => sessionCookie('', { isHttps, lastsMs: 0 })

/** A cookie's value in a Cookie header; null where it is not there, or twice with different values: then nobody knows whose it is. */
export function readCookie(header: string | null | undefined, name: string): string | null {
  const values = new Set<string>()
  for (const pair of (header ?? '').split(';')) {
    const at = pair.indexOf('=')
    if (at > 0 && pair.slice(0, at).trim() === name) values.add(pair.slice(at + 1).trim())
  }
  return values.size === 1 ? ([...values][0] as string) : null
}
