import { safeReturnPath } from '#lib/access/return-path'
import { languageCookie, languageCookieSeconds } from '../_language/choose'
import { languages } from '../_language/languages'

/** Takes the form that chooses a language for this device. The page is loaded whole afterwards: what it holds is all in the other one. */
export async function POST(request: Request): Promise<Response> {
  const form = await request.formData().catch(() => new FormData())
  const chosen = languages.find(({ key }) => key === form.get('language'))
  const location = safeReturnPath(String(form.get('to') ?? '/settings'))
  const value = chosen ? `${chosen.key}; Max-Age=${languageCookieSeconds}` : '; Max-Age=0'
  return new Response(null, {
    status: 303,
    headers: { location, 'cache-control': 'no-store', 'set-cookie': `${languageCookie}=${value}; Path=/; SameSite=Lax` },
  })
}
