import { z } from 'zod'
import { idText, versionText } from '#forms/fields'
import { say } from '#language/say'
import { longestAccountName } from '#lib/access/account'
import { longestPassword } from '#lib/access/password'
import { roles } from '#lib/access/who'

/** Longer than any password may be, so that one too long is told so rather than cut. */
const typedPassword = z
  .string()
  .max(longestPassword * 4)
  .default('')
const name = z
  .string()
  .trim()
  .min(1, { error: () => say('The name they sign in with.') })
  .max(longestAccountName, { error: () => say('Keep it to {longestAccountName} characters.', { longestAccountName }) })
const role = z.enum(roles, { error: () => say('Choose what they may do.') })
const sees = z.enum(['everyone', 'chosen']).default('everyone')

const isSameTwice = { path: ['again'], error: () => say('The two are not the same.') }

export const firstAccountSchema = z
  .object({ name, password: typedPassword, again: typedPassword })
  .refine(({ password, again }) => password === again, isSameTwice)

export const addPersonSchema = z.object({ name, role, sees, password: typedPassword })

const account = { id: idText, version: versionText }
export const changePersonSchema = z.object({ ...account, name, role, sees })
export const accountSchema = z.object(account)
export const givePasswordSchema = z.object({ id: idText, password: typedPassword })
export const accountIdSchema = z.object({ id: idText })
