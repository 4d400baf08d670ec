'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import type { AccountRefusal } from '#lib/access/account'
import { addAccount, changeAccount, closeAccount, countAccounts, openAccountAgain, setPassword } from '#lib/db/access/accounts'
import { requireRight } from '#lib/db/access/right'
import { endSessions } from '#lib/db/access/sessions'
import { accountRefusalWords } from '#words/access'
import { ownAccount } from '../../_access/own-account'
import { signThisBrowserIn } from '../../_access/sign-this-browser-in'
import {
  accountIdSchema,
  accountSchema,
  addPersonSchema,
  changePersonSchema,
  firstAccountSchema,
  givePasswordSchema,
} from './schema'

/** What was sent, without the passwords: those never come back with a page. */
function fieldsOf(form: FormData) {
  const sent = textFields(form)
  const { password: _password, again: _again, ...values } = sent
  return { sent, values }
}

/** Whose goods were ticked; null for everybody's, and undefined where those of some are to be seen and none is ticked. */
function readSight(form: FormData, sees: 'everyone' | 'chosen'): string[] | null | undefined {
  if (sees === 'everyone') return null
  const ticked = [...form.entries()].flatMap(([field, value]) => (field.startsWith('owner ') ? [String(value)] : []))
  return ticked.length === 0 ? undefined : ticked
}

const noneTicked = () => ({ sees: [say('Tick whose goods they see, or let them see everybody’s.')] })
const gone: FormState = { status: 'refused', message: accountRefusalWords({ kind: 'no-such-account' }) }

/** A refusal at the field it is about, where it is about one. */
function refusedAs(refusal: AccountRefusal, values: Record<string, string>): FormState {
  const message = accountRefusalWords(refusal)
  switch (refusal.kind) {
    case 'password':
      return { status: 'invalid', fieldErrors: { password: [message] }, values }
    case 'name-taken':
    case 'name-unfit':
      return { status: 'invalid', fieldErrors: { name: [message] }, values }
    default:
      return { status: 'refused', message, values }
  }
}

/** The first account of all: a keeper's, and this browser is signed in by it, since from now on everybody signs in. */
export async function addFirstAccountAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { sent, values } = fieldsOf(form)
  const input = firstAccountSchema.safeParse(sent)
  if (!input.success) return invalid(input.error, values)
  if ((await countAccounts()) > 0)
    return { status: 'refused', message: say('Somebody was first: there is an account now. Load the page again.') }
  const { name, password } = input.data
  const added = await addAccount({ name, password, role: 'keeper', ownerIds: null })
  if (!added.ok) return refusedAs(added.error, values)
  await signThisBrowserIn(added.value, 'password')
  revalidatePath('/', 'layout')
  redirect('/settings/people')
}

export async function addPersonAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { sent, values } = fieldsOf(form)
  const input = addPersonSchema.safeParse(sent)
  if (!input.success) return invalid(input.error, values)
  const { sees, ...person } = input.data
  const ownerIds = readSight(form, sees)
  if (ownerIds === undefined) return { status: 'invalid', fieldErrors: noneTicked(), values }
  const added = await addAccount({ ...person, ownerIds })
  if (!added.ok) return refusedAs(added.error, values)
  revalidatePath('/settings/people')
  return {
    status: 'done',
    message: say('{name} can sign in now. Tell them the password yourself, and to take one of their own under their account.', {
      name: added.value.name,
    }),
  }
}

export async function changePersonAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { sent, values } = fieldsOf(form)
  const input = changePersonSchema.safeParse(sent)
  if (!input.success) return invalid(input.error, values)
  const { sees, ...person } = input.data
  const ownerIds = readSight(form, sees)
  if (ownerIds === undefined) return { status: 'invalid', fieldErrors: noneTicked(), values }
  const changed = await changeAccount({ ...person, ownerIds })
  revalidatePath('/', 'layout')
  return changed.ok
    ? { status: 'done', message: say('Changed. It holds from their next step on.') }
    : refusedAs(changed.error, values)
}

/** Give somebody another password; they are signed out wherever they are. */
export async function givePasswordAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { sent, values } = fieldsOf(form)
  const input = givePasswordSchema.safeParse(sent)
  if (!input.success) return invalid(input.error, values)
  const set = await setPassword(input.data)
  revalidatePath('/settings/people')
  if (!set.ok) return refusedAs(set.error, values)
  return {
    status: 'done',
    message: say('{name} signs in with the new password from now on, on every device anew.', { name: set.value.name }),
  }
}

export async function signOutEverywhereAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const input = accountIdSchema.safeParse(textFields(form))
  if (!input.success) return gone
  const own = ownAccount()
  const keepSessionId = own?.accountId === input.data.id ? own.by.sessionId : null
  const ended = await endSessions({ accountId: input.data.id, keepSessionId })
  revalidatePath('/settings/people')
  return {
    status: 'done',
    message:
      ended === 0
        ? say('They were signed in nowhere.')
        : say('Signed out on {ended, plural, one {# device} other {# devices}}.', { ended }),
  }
}

export async function closeAccountAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { sent, values } = fieldsOf(form)
  const input = accountSchema.safeParse(sent)
  if (!input.success) return gone
  const closed = await closeAccount(input.data)
  revalidatePath('/settings/people')
  return closed.ok ? { status: 'done' } : refusedAs(closed.error, values)
}

export async function openAgainAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { sent, values } = fieldsOf(form)
  const input = accountSchema.safeParse(sent)
  if (!input.success) return gone
  const opened = await openAccountAgain(input.data)
  revalidatePath('/settings/people')
  return opened.ok ? { status: 'done' } : refusedAs(opened.error, values)
}
