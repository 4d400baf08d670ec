'use server'

import { createHash } from 'node:crypto'
import { revalidatePath } from 'next/cache'
import { RedirectType, redirect } from 'next/navigation'
import type { FormAction, FormState } from '#forms/form-state'
import { say } from '#language/say'
import { who } from '#lib/db/access/asking'
import { onlyOnce } from '#lib/db/access/once'
import { troubleOf } from '#lib/db/trouble'
import { log } from '#lib/log/log'
import { describeTrouble } from '#words/trouble'
import { onceField } from './once-field'
import { textFields } from './text-fields'

type Outcome = { kind: 'state'; state: FormState } | { kind: 'redirect'; url: string }

/**
 * Every form is sent through this. It carries a key of its own, so that pressed twice, sent again by a reload or by a browser that got no
 * answer, it is done once, and the second press shows what the first came to. The same key with other answers is another deed: somebody
 * went back and changed them. A full disk or a database that does not answer is said at the form, which keeps what was typed.
 */
export async function sendOnce(action: FormAction, previous: FormState, form: FormData): Promise<FormState> {
  const key = form.get(onceField)
  form.delete(onceField)
  const work = () => outcomeOf(action, previous, form)
  try {
    if (typeof key !== 'string' || !/^[\w-]{16,64}$/.test(key)) return comeTo(await work())
    const digest = digestOf(form)
    const asks = who()
    const scope = `${asks.kind === 'account' ? asks.accountId : asks.kind} form ${key} ${digest}`
    const once = await onlyOnce<Outcome>({ scope, fingerprint: digest }, work, { pack, always: true })
    if (once.kind === 'done') return comeTo(once.answer)
    // The page may have been drawn before the first was done.
    revalidatePath('/', 'layout')
    if (once.kind === 'answered') return comeTo(JSON.parse(once.answerJson) as Outcome)
    return { status: 'done', message: say('That was already done.') }
  } catch (error) {
    const trouble = isOfNext(error) ? null : troubleOf(error)
    if (trouble === null) throw error
    log.warn('form trouble', { kind: trouble, error })
    return { status: 'refused', message: describeTrouble(trouble), values: textFields(form) }
  }
}

const digestOfError = (error: unknown): string => String((error as { digest?: unknown } | null)?.digest ?? '')
/** `redirect()` and `notFound()` throw. */
const isOfNext = (error: unknown): boolean => digestOfError(error).startsWith('NEXT_')

async function outcomeOf(action: FormAction, previous: FormState, form: FormData): Promise<Outcome> {
  try {
    return { kind: 'state', state: await action(previous, form) }
  } catch (error) {
    // NEXT_REDIRECT;replace;/where;303;
    const [name, , ...rest] = digestOfError(error).split(';')
    if (name !== 'NEXT_REDIRECT') throw error
    return { kind: 'redirect', url: rest.slice(0, -2).join(';') }
  }
}

function comeTo(outcome: Outcome): FormState {
  if (outcome.kind === 'redirect') redirect(outcome.url, RedirectType.push)
  return outcome.state
}

/** What was refused may be tried again. */
const pack = (outcome: Outcome): string | null =>
  outcome.kind === 'state' && outcome.state.status !== 'done' ? null : JSON.stringify(outcome)

/** All that was sent but what the framework sends along; of a file its name and size. */
function digestOf(form: FormData): string {
  const hash = createHash('sha256')
  for (const [name, value] of form)
    if (!name.startsWith('$ACTION'))
      hash.update(JSON.stringify([name, typeof value === 'string' ? value : [value.name, value.size]]))
  return hash.digest('base64url')
}
