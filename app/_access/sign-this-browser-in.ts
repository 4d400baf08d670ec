import { cookies, headers } from 'next/headers'
import { sessionCookieName } from '#lib/access/session'
import { asking } from '#lib/db/access/asking'
import { startSession } from '#lib/db/access/sessions'

/** Whether the page came by HTTPS, here or at the server in front. */
const isHttps = (sent: Headers): boolean => sent.get('x-forwarded-proto')?.split(',')[0]?.trim() === 'https'

/** Sign in the browser that asks. It says whether the account still signs in. */
export async function signThisBrowserIn(accountId: string, how: 'password' | 'passkey'): Promise<boolean> {
  const [sent, jar] = await Promise.all([headers(), cookies()])
  const started = await startSession({
    accountId,
    how,
    device: sent.get('user-agent') ?? '',
    address: asking()?.address ?? '',
  })
  if (!started.ok) return false
  const { secret, lastsMs } = started.value
  jar.set(sessionCookieName(isHttps(sent)), secret, {
    path: '/',
    maxAge: Math.floor(lastsMs / 1000),
    httpOnly: true,
    sameSite: 'lax',
    secure: isHttps(sent),
  })
  return true
}
