import { headers } from 'next/headers'
import { findPasskeyPlace, type NoPasskeyPlace, type PasskeyPlace } from '#lib/access/passkey'
import type { Result } from '#lib/result'

/** Where passkeys made on this page belong, by the address it was asked for at; or why none can be made there. */
export async function passkeyPlace(): Promise<Result<PasskeyPlace, NoPasskeyPlace>> {
  const sent = await headers()
  const protocol = sent.get('x-forwarded-proto')?.split(',')[0]?.trim() ?? 'http'
  return findPasskeyPlace(sent.get('host') ?? '', protocol)
}
