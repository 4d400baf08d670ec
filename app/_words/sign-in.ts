import type { SignInRefusal } from '#lib/access/sign-in'
import type { Right, Who } from '#lib/access/who'

/** Why somebody may not do that, as a sentence or two. */
export function describeNotAllowed(who: Who, asked: Right): string {
  if (who.kind !== 'account') return 'Sign in first.'
  const scope = who.by.kind === 'token' ? ' with this token' : ''
  switch (asked) {
    case 'read':
      return `${who.name} may not look at this${scope}.`
    case 'change':
      return `${who.name} may look at everything here${scope} and changes nothing. A keeper can let you do the daily work.`
    case 'keep':
      return `This is a keeper’s work: settings, people, backups, and everything in or out. ${who.name} does not keep house here${scope}.`
  }
}

export function signInRefusalWords(refusal: SignInRefusal): string {
  switch (refusal.kind) {
    case 'wrong':
      return 'The name or the password is not right.'
    case 'wait':
      return `That was tried too often. Wait ${waitWords(refusal.seconds)}, then try again.`
  }
}

const waitWords = (seconds: number): string => {
  if (seconds < 60) return seconds === 1 ? 'a second' : `${seconds} seconds`
  const minutes = Math.ceil(seconds / 60)
  return minutes === 1 ? 'a minute' : `${minutes} minutes`
}
