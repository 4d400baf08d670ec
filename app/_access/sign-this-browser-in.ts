import { cookies, headers } from 'next/headers'
import { sessionCookieName } from '#lib/access/session'
import { asking } from '#lib/db/access/asking'
import { endSession, startSession } from '#lib/db/access/sessions'
import { isHttps } from '../_gate/is-https'
import { rememberName } from '../_viewer/remembered-name'
import { ownAccount } from './own-account'

/** Sign in the browser that asks; whoever was signed in on it is so no more. It says whether the account signs in at all. */
export async function signThisBrowserIn(account: { id: string; name: string }, how: 'password' | 'passkey'): Promise<boolean> {
  const [sent, jar] = await Promise.all([headers(), cookies()])
  const started = await startSession({
    accountId: account.id,
    how,
    device: sent.get('user-agent') ?? '',
    address: asking()?.address ?? '',
  })
  if (!started.ok) return false
  const before = ownAccount()
  if (before) await endSession({ accountId: before.accountId, sessionId: before.by.sessionId, how: 'here' })
  const { secret, lastsMs } = started.value
  const secure = isHttps(sent)
  jar.set(sessionCookieName(secure), secret, {
    path: '/',
    maxAge: Math.floor(lastsMs / 1000),
    httpOnly: true,
    sameSite: 'lax',
    secure,
  })
  await rememberName(account.name)
  return true
}
