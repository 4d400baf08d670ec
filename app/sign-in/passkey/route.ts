import { z } from 'zod'
import { usedPasskeySchema } from '#lib/access/passkey'
import { safeReturnPath } from '#lib/access/return-path'
import { finishPasskeySignIn } from '#lib/db/access/passkeys'
import { noPasskeyPlaceWords, passkeySignInRefusalWords } from '#words/access'
import { passkeyPlace } from '../../_access/passkey-place'
import { signThisBrowserIn } from '../../_access/sign-this-browser-in'
import { tooManyTries } from '../../_access/too-many-tries'

/** More than any passkey says. */
const mostCharacters = 64_000
const sentSchema = z.object({ used: usedPasskeySchema, returnTo: z.string().max(2_000).default('/') })

const refuse = (message: string, status: number): Response =>
  Response.json({ message }, { status, headers: { 'cache-control': 'no-store' } })

async function readSent(request: Request) {
  const text = await request.text()
  if (text.length > mostCharacters) return null
  try {
    const read = sentSchema.safeParse(JSON.parse(text))
    return read.success ? read.data : null
  } catch {
    return null
  }
}

/** Sign in the browser whose device has signed. */
export async function POST(request: Request): Promise<Response> {
  const wait = await tooManyTries()
  if (wait !== null) return refuse(wait, 429)
  const place = await passkeyPlace()
  if (!place.ok) return refuse(noPasskeyPlaceWords(place.error), 400)
  const sent = await readSent(request)
  if (!sent) return refuse(passkeySignInRefusalWords({ kind: 'does-not-verify' }), 400)
  const signedIn = await finishPasskeySignIn({ place: place.value, used: sent.used })
  if (!signedIn.ok) return refuse(passkeySignInRefusalWords(signedIn.error), 403)
  const { accountId: id, name } = signedIn.value
  if (!(await signThisBrowserIn({ id, name }, 'passkey')))
    return refuse(passkeySignInRefusalWords({ kind: 'account-closed' }), 403)
  return Response.json({ to: safeReturnPath(sent.returnTo) }, { headers: { 'cache-control': 'no-store' } })
}
