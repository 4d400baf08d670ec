import { say } from '#language/say'
import type { SignInRefusal } from '#lib/access/sign-in'
import type { Right, Who } from '#lib/access/who'

/** Why somebody may not do that, as a sentence or two. */
export function describeNotAllowed(who: Who, asked: Right): string {
  if (who.kind !== 'account') return say('Sign in first.')
  const scope = who.by.kind === 'token' ? say(' with this token') : ''
  switch (asked) {
    case 'read':
      return say('{name} may not look at this{scope}.', { name: who.name, scope })
    case 'change':
      return say('{name} may look at everything here{scope} and changes nothing. A keeper can let you do the daily work.', {
        name: who.name,
        scope,
      })
    case 'keep':
      return say(
        'This is a keeper’s work: settings, people, backups, and everything in or out. {name} does not keep house here{scope}.',
        { name: who.name, scope },
      )
  }
}

export function signInRefusalWords(refusal: SignInRefusal): string {
  switch (refusal.kind) {
    case 'wrong':
      return say('The name or the password is not right.')
    case 'wait':
      return say('That was tried too often. Wait {wait}, then try again.', { wait: waitWords(refusal.seconds) })
  }
}

const waitWords = (seconds: number): string => {
  if (seconds < 60) return seconds === 1 ? say('a second') : say('{seconds} seconds', { seconds })
  const minutes = Math.ceil(seconds / 60)
  return minutes === 1 ? say('a minute') : say('{minutes} minutes', { minutes })
}
