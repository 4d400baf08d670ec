import { z } from 'zod'
import { ok, type Result, refused } from '#lib/result'

/** What a passkey is tied to: the name in the address, and the whole of what stands before the first stroke. */
export type PasskeyPlace = {
  /** The host without its port (W3C Web Authentication Level 3, section 4, "RP ID"). */
  rpId: string
  origin: string
}

export type NoPasskeyPlace =
  /** The address is numbers: a passkey needs a name. */
  | { kind: 'no-name'; origin: string }
  /** Not HTTPS, and not this machine itself. */
  | { kind: 'not-secure'; host: string }
  | { kind: 'no-host' }

const isNumbers = (hostname: string): boolean => /^\[.*\]$/.test(hostname) || /^\d{1,3}(?:\.\d{1,3}){3}$/.test(hostname)
const isThisMachine = (hostname: string): boolean => hostname === 'localhost' || hostname.endsWith('.localhost')

/**
 * What passkeys made at this address are tied to, or why browsers make none there: they want a name, not numbers, and HTTPS unless the name
 * is localhost (W3C Web Authentication Level 3, section 5.1.3, step 7; Secure Contexts, section 3.1).
 *
 * @param host      as the request has it, with its port
 * @param protocol  http or https
 */
export function findPasskeyPlace(host: string, protocol: string): Result<PasskeyPlace, NoPasskeyPlace> {
  const address = `${protocol}://${host}`
  if (!/^https?:\/\/[^/?#@\\\s]+$/.test(address) || !URL.canParse(address)) return refused({ kind: 'no-host' })
  const { hostname, origin } = new URL(address)
  if (isNumbers(hostname)) return refused({ kind: 'no-name', origin })
  if (protocol !== 'https' && !isThisMachine(hostname)) return refused({ kind: 'not-secure', host: hostname })
  return ok({ rpId: hostname, origin })
}

/**
 * Whether a signature's counter goes on from the one before. A device that counts raises it every time: one that does not was copied, or the
 * copy was here first. Many count nothing and say 0 each time (W3C Web Authentication Level 3, section 7.2, step 22).
 */
export const isCounterGoingOn = (kept: number, sent: number): boolean => (kept === 0 && sent === 0) || sent > kept

/** Whether taking this passkey away would leave no way to sign in. */
export const isLastWayIn = (account: { hasPassword: boolean; passkeyIds: readonly string[] }, passkeyId: string): boolean =>
  !account.hasPassword && account.passkeyIds.every((id) => id === passkeyId)

const base64url = (most: number) =>
  z
    .string()
    .min(1)
    .max(most)
    .regex(/^[A-Za-z0-9_-]+$/)

// A credential's id has at most 1023 bytes (section 4, "Credential ID"); the rest has room to spare.
const named = {
  id: base64url(1_400),
  rawId: base64url(1_400),
  type: z.literal('public-key'),
}

/** What a browser sends once a passkey was made; nothing is asked for beyond it. */
export const madePasskeySchema = z.object({
  ...named,
  response: z.object({
    clientDataJSON: base64url(8_000),
    attestationObject: base64url(40_000),
    transports: z
      .array(z.string().regex(/^[a-z-]{1,20}$/))
      .max(10)
      .optional()
      .catch(undefined),
  }),
})
export type MadePasskey = z.infer<typeof madePasskeySchema>

/** What a browser sends once a passkey has signed. */
export const usedPasskeySchema = z.object({
  ...named,
  response: z.object({
    clientDataJSON: base64url(8_000),
    authenticatorData: base64url(4_000),
    signature: base64url(8_000),
    userHandle: base64url(100).optional(),
  }),
})
export type UsedPasskey = z.infer<typeof usedPasskeySchema>

/** What a browser writes down of the ceremony, as far as it says what was to be signed; null where it does not read. */
export function readChallenge(clientDataJSON: string): string | null {
  try {
    const read = z
      .object({ challenge: base64url(200) })
      .safeParse(JSON.parse(Buffer.from(clientDataJSON, 'base64url').toString('utf8')))
    return read.success ? read.data.challenge : null
  } catch {
    return null
  }
}
