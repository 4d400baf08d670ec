import { z } from 'zod'
import { safeReturnPath } from '#lib/access/return-path'
import { sessionCookie } from '#lib/access/session'
import { asking, who } from '#lib/db/access/asking'
import { endSession } from '#lib/db/access/sessions'
import { signInByPassword } from '#lib/db/access/sign-in'
import { nameCookie, nameCookieSeconds } from '#viewer/name-cookie'
import { isHttps } from '../../_gate/is-https'
import { nameTypedCookie } from '../name-typed'

const formSchema = z.object({
  name: z.string().trim().min(1).max(200),
  password: z.string().min(1).max(1_000),
  to: z.string().catch('/'),
})

/** Takes the sign-in page's form; a page's own actions are not open to somebody who has not signed in. */
export async function POST(request: Request): Promise<Response> {
  const sent = formSchema.safeParse(Object.fromEntries(await request.formData().catch(() => new FormData())))
  const to = safeReturnPath(sent.success ? sent.data.to : '/')
  const asks = who()
  if (asks.kind === 'alone') return goTo(to)
  const again = (search: string, name: string) =>
    goTo(`/sign-in?${search}${to === '/' ? '' : `&to=${encodeURIComponent(to)}`}`, [
      `${nameTypedCookie}=${encodeURIComponent(name)}; Path=/sign-in; Max-Age=60; HttpOnly; SameSite=Lax`,
    ])
  if (!sent.success) return again('why=wrong', '')

  const device = request.headers.get('user-agent') ?? ''
  const result = await signInByPassword({ ...sent.data, device, address: asking()?.address ?? '' })
  if (!result.ok) {
    const { error } = result
    return again(error.kind === 'wait' ? `why=wait&seconds=${error.seconds}` : 'why=wrong', sent.data.name)
  }
  // Whoever was signed in here is so no more.
  if (asks.kind === 'account' && asks.by.kind === 'session')
    await endSession({ accountId: asks.accountId, sessionId: asks.by.sessionId, how: 'here' })
  const { secret, lastsMs, name } = result.value
  return goTo(to, [
    sessionCookie(secret, { isHttps: isHttps(request.headers), lastsMs }),
    `${nameCookie}=${encodeURIComponent(name)}; Path=/; Max-Age=${nameCookieSeconds}; SameSite=Lax`,
    `${nameTypedCookie}=; Path=/sign-in; Max-Age=0`,
  ])
}

function goTo(location: string, cookies: string[] = []): Response {
  const response = new Response(null, { status: 303, headers: { location, 'cache-control': 'no-store' } })
  for (const cookie of cookies) response.headers.append('set-cookie', cookie)
  return response
}
