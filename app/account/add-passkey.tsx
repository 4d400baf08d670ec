'use client'

import { browserSupportsWebAuthn, startRegistration, WebAuthnError } from '@simplewebauthn/browser'
import { type FormEvent, useEffect, useRef, useState } from 'react'
import { say } from '#language/say'
import { Button } from '#ui/button'
import { TextField } from '#ui/field'
import { Notice } from '#ui/notice'
import a from './account.module.css'
import { beginPasskeyAction, keepPasskeyAction } from './actions'

type Answer = { kind: 'refusal' | 'done'; message: string }
type Errors = Record<string, string[] | undefined>

/** Why the browser made none: it says little, so that pages learn nothing of the person. */
function browserWords(error: unknown): string {
  if (error instanceof WebAuthnError && error.code === 'ERROR_AUTHENTICATOR_PREVIOUSLY_REGISTERED')
    return say('That device holds a passkey of yours already.')
  if (
    error instanceof WebAuthnError &&
    (error.code === 'ERROR_AUTHENTICATOR_MISSING_DISCOVERABLE_CREDENTIAL_SUPPORT' ||
      error.code === 'ERROR_AUTHENTICATOR_MISSING_USER_VERIFICATION_SUPPORT')
  )
    return say('That device cannot make sure of you by finger, face or PIN. Set one up on it, or use another device.')
  return say('The browser made no passkey: it was called off, or took too long. Begin again when you are ready.')
}

/** Asks the browser for a passkey. Needs its scripts, and says so where they do not run. */
export function AddPasskey({ place, asksPassword }: { place: string; asksPassword: boolean }) {
  const [isAtWork, setIsAtWork] = useState(false)
  const [isAble, setIsAble] = useState<boolean | null>(null)
  const [answer, setAnswer] = useState<Answer | null>(null)
  const [errors, setErrors] = useState<Errors>({})
  const form = useRef<HTMLFormElement>(null)
  const notice = useRef<HTMLDivElement>(null)

  useEffect(() => setIsAble(browserSupportsWebAuthn()), [])
  useEffect(() => {
    if (answer?.kind === 'refusal') notice.current?.focus()
  }, [answer])
  useEffect(() => {
    if (Object.keys(errors).length > 0) form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus()
  }, [errors])

  async function add(label: string, former: string): Promise<Answer | null> {
    const begun = await beginPasskeyAction({ label, former })
    if (begun.status === 'invalid') {
      setErrors(begun.fieldErrors)
      return null
    }
    if (begun.status === 'refused') return { kind: 'refusal', message: begun.message }
    let made: unknown
    try {
      made = await startRegistration({ optionsJSON: begun.options })
    } catch (error) {
      return { kind: 'refusal', message: browserWords(error) }
    }
    const kept = await keepPasskeyAction({ label, made })
    if (kept.status !== 'done') return { kind: 'refusal', message: kept.message ?? say('The passkey was not kept.') }
    form.current?.reset()
    return { kind: 'done', message: kept.message ?? say('Kept.') }
  }

  async function send(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (isAtWork) return
    const sent = new FormData(event.currentTarget)
    setIsAtWork(true)
    setErrors({})
    setAnswer(null)
    try {
      setAnswer(await add(String(sent.get('label') ?? ''), String(sent.get('former') ?? '')))
    } catch {
      setAnswer({ kind: 'refusal', message: say('The server did not answer. Try again in a moment.') })
    } finally {
      setIsAtWork(false)
    }
  }

  if (isAble === false) return <p>{say('This browser keeps no passkeys. Use a newer one, or another device.')}</p>
  return (
    <>
      <noscript>
        <p>{say('A passkey is made by the browser’s own scripts, and they are switched off here.')}</p>
      </noscript>
      <form ref={form} className={a.row} onSubmit={send} aria-label={say('Add a passkey')} aria-busy={isAtWork} noValidate>
        <TextField
          name="label"
          label={say('What to call it')}
          hint={say('Such as the device it is on. It will sign you in at {place}.', { place })}
          maxLength={60}
          width="half"
          error={errors.label?.join(' ')}
        />
        {asksPassword && (
          <TextField
            name="former"
            label={say('Your password')}
            type="password"
            autoComplete="current-password"
            width="half"
            error={errors.former?.join(' ')}
          />
        )}
        <Button type="submit" aria-disabled={isAtWork || isAble === null || undefined}>
          {isAtWork ? say('Waiting for the device') : say('Add a passkey')}
        </Button>
      </form>
      <div role="status">{answer?.kind === 'done' && <Notice kind="done" title={answer.message} />}</div>
      {answer?.kind === 'refusal' && <Notice kind="refusal" title={answer.message} ref={notice} />}
    </>
  )
}
