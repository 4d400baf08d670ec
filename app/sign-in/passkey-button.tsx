'use client'

import { browserSupportsWebAuthn, startAuthentication } from '@simplewebauthn/browser'
import { useEffect, useRef, useState } from 'react'
import { say } from '#language/say'
import { Button } from '#ui/button'
import { Notice } from '#ui/notice'

type Answer = Record<string, unknown> & { message?: string }

async function post(address: string, sent: unknown): Promise<{ isGood: boolean; answer: Answer }> {
  const response = await fetch(address, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(sent),
  })
  return { isGood: response.ok, answer: (await response.json()) as Answer }
}

/** Why nobody was signed in; or where to go, signed in. */
async function signIn(returnTo: string): Promise<{ to: string } | { message: string }> {
  const begun = await post('/sign-in/passkey/options', {})
  if (!begun.isGood) return { message: begun.answer.message ?? say('That did not begin. Try again in a moment.') }
  let used: unknown
  try {
    used = await startAuthentication({
      optionsJSON: begun.answer.options as Parameters<typeof startAuthentication>[0]['optionsJSON'],
    })
  } catch {
    return {
      message: say(
        'No passkey was used: it was called off, took too long, or this device holds none for this address. Sign in by name and password.',
      ),
    }
  }
  const { isGood, answer } = await post('/sign-in/passkey', { used, returnTo })
  if (!isGood) return { message: answer.message ?? say('That did not sign you in. Sign in by name and password.') }
  return { to: String(answer.to) }
}

/** Signs in by passkey, with no name typed. Stands only where the browser's scripts run and know of passkeys. */
export function PasskeyButton({ returnTo }: { returnTo: string }) {
  const [isAble, setIsAble] = useState(false)
  const [isAtWork, setIsAtWork] = useState(false)
  const [message, setMessage] = useState<string | null>(null)
  const notice = useRef<HTMLDivElement>(null)

  useEffect(() => setIsAble(browserSupportsWebAuthn()), [])
  useEffect(() => {
    if (message !== null) notice.current?.focus()
  }, [message])

  async function press() {
    if (isAtWork) return
    setIsAtWork(true)
    setMessage(null)
    const answer = await signIn(returnTo).catch(() => ({ message: say('The server did not answer. Try again in a moment.') }))
    if ('to' in answer) window.location.assign(answer.to)
    else {
      setMessage(answer.message)
      setIsAtWork(false)
    }
  }

  if (!isAble) return null
  return (
    <div>
      {message !== null && <Notice kind="refusal" title={message} ref={notice} />}
      <Button onClick={press} aria-disabled={isAtWork || undefined}>
        {isAtWork ? say('Waiting for the device') : say('Sign in with a passkey')}
      </Button>
    </div>
  )
}
