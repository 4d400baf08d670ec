'use server'

import type { PublicKeyCredentialCreationOptionsJSON } from '@simplewebauthn/server'
import { revalidatePath } from 'next/cache'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { setPassword } from '#lib/db/access/accounts'
import { beginPasskey, finishPasskey, removePasskey, renamePasskey } from '#lib/db/access/passkeys'
import { endSession, endSessions } from '#lib/db/access/sessions'
import { makeToken, revokeToken } from '#lib/db/access/tokens'
import {
  accountRefusalWords,
  noPasskeyPlaceWords,
  passkeyChangeRefusalWords,
  passkeyRefusalWords,
  tokenRefusalWords,
} from '#words/access'
import { requireOwnAccount } from '../_access/own-account'
import { passkeyPlace } from '../_access/passkey-place'
import { refusePassword } from '../_access/refuse-password'
import {
  beginPasskeySchema,
  changePasswordSchema,
  keepPasskeySchema,
  makeTokenSchema,
  passkeyIdSchema,
  renamePasskeySchema,
  sessionIdSchema,
  tokenIdSchema,
} from './schema'

/** What was sent, without the passwords: those never come back with a page. */
function fieldsOf(form: FormData) {
  const sent = textFields(form)
  const { former: _former, password: _password, again: _again, ...values } = sent
  return { sent, values }
}

const notYours = (): FormState => ({
  status: 'refused',
  message: say('That is not among yours any more. The page now shows those there are.'),
})

/** Set another password; every other device is signed out by it. */
export async function changePasswordAction(_previous: FormState, form: FormData): Promise<FormState> {
  const own = requireOwnAccount()
  const { sent, values } = fieldsOf(form)
  const input = changePasswordSchema.safeParse(sent)
  if (!input.success) return invalid(input.error, values)
  const wrong = await refusePassword(own.name, input.data.former)
  if (wrong !== null) return { status: 'invalid', fieldErrors: { former: [wrong] }, values }
  const set = await setPassword({ id: own.accountId, password: input.data.password, keepSessionId: own.by.sessionId })
  if (!set.ok) {
    const message = accountRefusalWords(set.error)
    if (set.error.kind === 'password') return { status: 'invalid', fieldErrors: { password: [message] }, values }
    return { status: 'refused', message, values }
  }
  revalidatePath('/account')
  return { status: 'done', message: say('Your password is changed. Every other device is signed out.') }
}

export type PasskeyBegun =
  | { status: 'begun'; options: PublicKeyCredentialCreationOptionsJSON }
  | { status: 'invalid'; fieldErrors: Record<string, string[] | undefined> }
  | { status: 'refused'; message: string }

/** What the browser is to make a passkey from. */
export async function beginPasskeyAction(sent: { label: string; former: string }): Promise<PasskeyBegun> {
  const own = requireOwnAccount()
  const input = beginPasskeySchema.safeParse(sent)
  if (!input.success) return { status: 'invalid', fieldErrors: z.flattenError(input.error).fieldErrors }
  const wrong = await refusePassword(own.name, input.data.former)
  if (wrong !== null) return { status: 'invalid', fieldErrors: { former: [wrong] } }
  const place = await passkeyPlace()
  if (!place.ok) return { status: 'refused', message: noPasskeyPlaceWords(place.error) }
  const begun = await beginPasskey({ accountId: own.accountId, place: place.value })
  if (!begun.ok) return { status: 'refused', message: passkeyRefusalWords(begun.error) }
  return { status: 'begun', options: begun.value }
}

/** Keep the passkey that the browser has made. */
export async function keepPasskeyAction(sent: unknown): Promise<FormState> {
  const own = requireOwnAccount()
  const input = keepPasskeySchema.safeParse(sent)
  if (!input.success) return { status: 'refused', message: passkeyRefusalWords({ kind: 'does-not-verify' }) }
  const place = await passkeyPlace()
  if (!place.ok) return { status: 'refused', message: noPasskeyPlaceWords(place.error) }
  const kept = await finishPasskey({ accountId: own.accountId, place: place.value, ...input.data })
  if (!kept.ok) return { status: 'refused', message: passkeyRefusalWords(kept.error) }
  revalidatePath('/account')
  return { status: 'done', message: say('“{label}” is kept. You can sign in with it from now on.', { label: kept.value.label }) }
}

export async function renamePasskeyAction(_previous: FormState, form: FormData): Promise<FormState> {
  const own = requireOwnAccount()
  const { sent, values } = fieldsOf(form)
  const input = renamePasskeySchema.safeParse(sent)
  if (!input.success) return invalid(input.error, values)
  const renamed = await renamePasskey({ accountId: own.accountId, ...input.data })
  if (!renamed.ok) return { status: 'refused', message: passkeyChangeRefusalWords(renamed.error), values }
  revalidatePath('/account')
  return { status: 'done', message: say('Kept.') }
}

export async function removePasskeyAction(_previous: FormState, form: FormData): Promise<FormState> {
  const own = requireOwnAccount()
  const input = passkeyIdSchema.safeParse(textFields(form))
  if (!input.success) return notYours()
  const removed = await removePasskey({ accountId: own.accountId, ...input.data })
  revalidatePath('/account')
  if (!removed.ok) return { status: 'refused', message: passkeyChangeRefusalWords(removed.error) }
  return { status: 'done' }
}

/** Sign another device out. */
export async function endDeviceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const own = requireOwnAccount()
  const input = sessionIdSchema.safeParse(textFields(form))
  if (!input.success) return notYours()
  const isEnded = await endSession({ accountId: own.accountId, ...input.data, how: 'other-device' })
  revalidatePath('/account')
  return isEnded ? { status: 'done' } : { status: 'refused', message: say('That device was signed out already.') }
}

/** Sign every device out but this one. */
export async function endOtherDevicesAction(_previous: FormState, _form: FormData): Promise<FormState> {
  const own = requireOwnAccount()
  const ended = await endSessions({ accountId: own.accountId, keepSessionId: own.by.sessionId })
  revalidatePath('/account')
  return {
    status: 'done',
    message:
      ended === 0
        ? say('No other device was signed in.')
        : say('{ended, plural, one {# device} other {# devices}} signed out. This one stays.', { ended }),
  }
}

/** Make a token; this is the only time it is shown. */
export async function makeTokenAction(_previous: FormState, form: FormData): Promise<FormState> {
  const own = requireOwnAccount()
  const { sent, values } = fieldsOf(form)
  const input = makeTokenSchema.safeParse(sent)
  if (!input.success) return invalid(input.error, values)
  const { label, scope, until, former } = input.data
  const wrong = await refusePassword(own.name, former)
  if (wrong !== null) return { status: 'invalid', fieldErrors: { former: [wrong] }, values }
  const expiresAt = until === '' ? null : endOfDay(until)
  const made = await makeToken({ accountId: own.accountId, label, scope, expiresAt })
  if (!made.ok) {
    const message = tokenRefusalWords(made.error)
    if (made.error.kind === 'over-already') return { status: 'invalid', fieldErrors: { until: [message] }, values }
    return { status: 'refused', message, values }
  }
  revalidatePath('/account')
  return {
    status: 'done',
    message: say('{label} is made. Copy it now to where it is used, for it is not shown again.', { label }),
    extract: made.value.text,
  }
}

/** The last moment of a day, by this machine's clock. */
function endOfDay(day: string): Date {
  const end = new Date(`${day}T00:00:00`)
  end.setDate(end.getDate() + 1)
  return end
}

export async function revokeTokenAction(_previous: FormState, form: FormData): Promise<FormState> {
  const own = requireOwnAccount()
  const input = tokenIdSchema.safeParse(textFields(form))
  if (!input.success) return notYours()
  const revoked = await revokeToken({ accountId: own.accountId, ...input.data })
  revalidatePath('/account')
  return revoked.ok ? { status: 'done' } : { status: 'refused', message: say('That token was taken back already.') }
}
