import type { Metadata } from 'next'
import { cookies } from 'next/headers'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import { say } from '#language/say'
import { safeReturnPath } from '#lib/access/return-path'
import { who } from '#lib/db/access/asking'
import { Button } from '#ui/button'
import { TextField } from '#ui/field'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { signInRefusalWords } from '#words/sign-in'
import { nameTypedCookie } from './name-typed'
import { PasskeyButton } from './passkey-button'
import s from './sign-in.module.css'

export const generateMetadata = (): Metadata => ({ title: say('Sign in') })

const askedSchema = z.object({
  to: z.string().optional().catch(undefined),
  why: z.enum(['wrong', 'wait']).optional().catch(undefined),
  seconds: z.coerce.number().int().min(1).max(86_400).catch(60),
})

/** Where everybody comes who has not signed in. Its form goes to an address of its own and works without scripts. */
export default async function SignInPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { to, why, seconds } = askedSchema.parse(await searchParams)
  const returnTo = safeReturnPath(to)
  if (who().kind !== 'nobody') redirect(returnTo)
  const typed = (await cookies()).get(nameTypedCookie)?.value ?? ''
  return (
    <>
      <PageHead title={say('Sign in')} byline={say('Those who work with this collection have a name here; a keeper makes it.')} />
      <div className={s.way}>
        {why && (
          <Notice kind="refusal" title={signInRefusalWords(why === 'wait' ? { kind: 'wait', seconds } : { kind: 'wrong' })} />
        )}
        <form method="post" action="/sign-in/enter" className={s.form} aria-label={say('Sign in')}>
          <input type="hidden" name="to" value={returnTo} />
          <TextField
            name="name"
            label={say('Name')}
            autoComplete="username"
            defaultValue={typed}
            autoFocus={typed === ''}
            isRequired
          />
          <TextField
            name="password"
            label={say('Password')}
            type="password"
            autoComplete="current-password"
            autoFocus={typed !== ''}
            isRequired
          />
          <div>
            <Button kind="first" type="submit">
              {say('Sign in')}
            </Button>
          </div>
        </form>
        <PasskeyButton returnTo={returnTo} />
      </div>
      <p className="quiet">
        {say(
          'Forgotten? A keeper gives a new password under Settings, People. Where no keeper can sign in, whoever has this machine can: npm run account -- --password NAME',
        )}
      </p>
    </>
  )
}
