import { crc32 } from 'node:zlib'
import { ok, type Result, refused } from '#lib/result'

/** What every token begins with, so that one left lying about is known for what it is. */
export const tokenMark = 'larder_'

/** How many random bytes a token's secret is. */
export const tokenBytes = 32

/** 32 bytes and the four of the check, each in base64url (RFC 4648, section 5, without padding). */
const tokenForm = /^larder_[A-Za-z0-9_-]{43}[A-Za-z0-9_-]{6}$/

/** The check: CRC-32 (ITU-T V.42) of the mark and the secret as written. It tells a slip of the hand apart; it guards nothing. */
function checkOf(secretText: string): string {
  const sum = Buffer.alloc(4)
  sum.writeUInt32BE(crc32(tokenMark + secretText))
  return sum.toString('base64url')
}

/**
 * A token as its holder keeps it: the mark, the secret, and a check by which a token cut short or mistyped is told from one that was taken
 * back.
 *
 * @param secret  fresh random bytes
 * @throws {RangeError} if there are not 32 of them.
 */
export function writeToken(secret: Uint8Array): string {
  if (secret.length !== tokenBytes) throw new RangeError(`writeToken: ${secret.length} bytes, not ${tokenBytes}`)
  const text = Buffer.from(secret).toString('base64url')
  return tokenMark + text + checkOf(text)
}

export type TokenUnread =
  /** It is something else altogether. */
  | { kind: 'not-a-token' }
  /** It begins like one, and a letter of it is wrong, missing or too many. */
  | { kind: 'mistyped' }

/** A token as somebody sends it, held against its own check. White space around it is left out. */
export function readToken(sent: string): Result<string, TokenUnread> {
  const text = sent.trim()
  if (!text.startsWith(tokenMark)) return refused({ kind: 'not-a-token' })
  if (!tokenForm.test(text)) return refused({ kind: 'mistyped' })
  const secret = text.slice(tokenMark.length, -6)
  return text.endsWith(checkOf(secret)) ? ok(text) : refused({ kind: 'mistyped' })
}
