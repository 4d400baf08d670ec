import { endedCookie } from '#lib/access/session'
import { who } from '#lib/db/access/asking'
import { endSession } from '#lib/db/access/sessions'
import { isHttps } from '../_gate/is-https'

/** Sign this device out. */
export async function POST(request: Request): Promise<Response> {
  const asks = who()
  if (asks.kind === 'account' && asks.by.kind === 'session')
    await endSession({ accountId: asks.accountId, sessionId: asks.by.sessionId, how: 'here' })
  return new Response(null, {
    status: 303,
    headers: { location: '/sign-in', 'cache-control': 'no-store', 'set-cookie': endedCookie(isHttps(request.headers)) },
  })
}
