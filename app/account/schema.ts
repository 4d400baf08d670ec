import { z } from 'zod'
import { idText } from '#forms/fields'
import { say } from '#language/say'
import { madePasskeySchema } from '#lib/access/passkey'
import { longestPassword } from '#lib/access/password'
import { rights } from '#lib/access/who'
import { isDay } from '#lib/quantity/day'

/** Longer than any password may be, so that one too long is told so rather than cut. */
const typedPassword = z
  .string()
  .max(longestPassword * 4, { error: () => say('That is no password of yours.') })
  .default('')

const label = z
  .string()
  .trim()
  .min(1, { error: () => say('Call it something, so that you know it again.') })
  .max(60, { error: () => say('Keep it to 60 characters.') })
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is not wanted
  .regex(/^[^\u0000-\u001f\u007f]*$/, { error: () => say('One line of plain text.') })

export const changePasswordSchema = z
  .object({ former: typedPassword, password: typedPassword, again: typedPassword })
  .refine(({ password, again }) => password === again, { path: ['again'], error: () => say('The two are not the same.') })

export const beginPasskeySchema = z.object({ label, former: typedPassword })
export const keepPasskeySchema = z.object({ label, made: madePasskeySchema })
export const renamePasskeySchema = z.object({ passkeyId: idText, label })
export const passkeyIdSchema = z.object({ passkeyId: idText })

export const sessionIdSchema = z.object({ sessionId: idText })

export const makeTokenSchema = z.object({
  label,
  scope: z.enum(rights, { error: () => say('Choose what it may do.') }),
  until: z
    .string()
    .trim()
    .default('')
    .refine((text) => text === '' || isDay(text), { error: () => say('A day such as 2027-01-31, or left empty.') }),
  former: typedPassword,
})
export const tokenIdSchema = z.object({ tokenId: idText })
