import { headers } from 'next/headers'
import { findPasskeyPlace, type NoPasskeyPlace, type PasskeyPlace } from '#lib/access/passkey'
import type { Result } from '#lib/result'
import { isHttps } from '../_gate/is-https'

/** Where passkeys made on this page belong, by the address it was asked for at; or why none can be made there. */
export async function passkeyPlace(): Promise<Result<PasskeyPlace, NoPasskeyPlace>> {
  const sent = await headers()
  return findPasskeyPlace(sent.get('host') ?? '', isHttps(sent) ? 'https' : 'http')
}
