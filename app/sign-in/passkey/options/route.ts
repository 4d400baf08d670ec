import { beginPasskeySignIn } from '#lib/db/access/passkeys'
import { noPasskeyPlaceWords } from '#words/access'
import { passkeyPlace } from '../../../_access/passkey-place'
import { tooManyTries } from '../../../_access/too-many-tries'

const headers = { 'cache-control': 'no-store' }

/** What a browser is to sign with a passkey of this place. */
export async function POST(): Promise<Response> {
  const wait = await tooManyTries()
  if (wait !== null) return Response.json({ message: wait }, { status: 429, headers })
  const place = await passkeyPlace()
  if (!place.ok) return Response.json({ message: noPasskeyPlaceWords(place.error) }, { status: 400, headers })
  return Response.json({ options: await beginPasskeySignIn(place.value) }, { headers })
}
