import { say } from '#language/say'
import { Button } from '#ui/button'
import { Link } from '#ui/link'
import s from './signed-in-line.module.css'

/** Who is signed in on this device, the way to their account, and out. Its form works without scripts. */
export function SignedInLine({ name, isLooker }: { name: string; isLooker: boolean }) {
  return (
    <section className={s.line} aria-label={say('Who is signed in')}>
      <span>
        <Link href="/account">{name}</Link>
        {isLooker && say(' · you look only')}
      </span>
      <form method="post" action="/sign-out">
        <Button kind="quiet" type="submit">
          {say('Sign out')}
        </Button>
      </form>
    </section>
  )
}
