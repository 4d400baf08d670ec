import { say, sayings } from '#language/say'
import type { AccountRefusal } from '#lib/access/account'
import type { NoPasskeyPlace } from '#lib/access/passkey'
import type { PasswordRefusal } from '#lib/access/password'
import type { Right, Role } from '#lib/access/who'
import type { PasskeyChangeRefused, PasskeyRefused, PasskeySignInRefused } from '#lib/db/access/passkeys'
import type { TokenRefused } from '#lib/db/access/tokens'
import { listed } from './amounts'

/** What somebody of a role may, after "may". */
export const roleWords: Record<Role, string> = sayings({
  keeper: 'keep house: people, settings, backups, everything in or out',
  helper: 'look, and change what the daily work changes',
  looker: 'look',
})

export const roleOptions = () =>
  [
    { value: 'looker', label: say('looker'), note: say('looks things up; changes nothing') },
    { value: 'helper', label: say('helper'), note: say('does the daily work: pulls, kits, puts back, counts') },
    { value: 'keeper', label: say('keeper'), note: say('does everything, and looks after people, settings and backups') },
  ] as const

/** What a token may be made to do, as far as its account may. */
export const scopeWords: Record<Right, string> = sayings({
  read: 'look',
  change: 'look and change',
  keep: 'everything',
})

/** Whose goods an account sees, after "sees". */
export function sightWords(ownerIds: readonly string[] | null, owners: readonly { id: string; name: string }[]): string {
  if (ownerIds === null) return say('everybody’s goods')
  const names = owners.filter(({ id }) => ownerIds.includes(id)).map(({ name }) => name)
  return names.length === 0 ? say('nobody’s goods') : say('the goods of {names}', { names: listed(names) })
}

/** Why a password is not taken, and what would be. */
export function passwordRefusalWords(refusal: PasswordRefusal): string {
  switch (refusal.kind) {
    case 'too-short':
      return say(
        'At least {least} characters. Four words that have nothing to do with each other are good, and easily kept in mind.',
        { least: refusal.least },
      )
    case 'too-long':
      return say('At most {most} characters.', { most: refusal.most })
    case 'too-plain':
      return say(
        'That is among the first that are guessed: a name, a well-known word, a run of keys. Take words nobody would put together.',
      )
  }
}

/** Why an account was left as it was. */
export function accountRefusalWords(refusal: AccountRefusal): string {
  switch (refusal.kind) {
    case 'no-such-account':
      return say('That account is not here any more. The page now shows those there are.')
    case 'name-taken':
      return say('Somebody signs in as {name} already, or did before the account was closed. Take another name.', {
        name: refusal.name,
      })
    case 'name-unfit':
      return say('A name is one line of up to 80 letters or figures.')
    case 'changed-meanwhile':
      return say('Somebody changed this account meanwhile. The page now shows how it stands; look and save again.')
    case 'last-keeper':
      return say(
        '{name} is the only keeper. Make somebody else a keeper first, or nobody could look after people and settings.',
        { name: refusal.name },
      )
    case 'first-is-keeper':
      return say('The first account has to be a keeper’s: somebody must be able to let the others in.')
    case 'keeper-sees-all':
      return say(
        'A keeper looks after everybody’s goods, so a keeper sees them all. Whoever is to see only some is a helper or a looker.',
      )
    case 'password':
      return passwordRefusalWords(refusal.refusal)
  }
}

/** Why no passkey can be made or used at this address, and where one can. */
export function noPasskeyPlaceWords(refusal: NoPasskeyPlace): string {
  switch (refusal.kind) {
    case 'no-name':
      return say('Browsers keep passkeys for a name, and the address of this page is numbers.')
    case 'not-secure':
      return say('Browsers keep passkeys only where the page comes by HTTPS, and this one, from {host}, does not.', {
        host: refusal.host,
      })
    case 'no-host':
      return say('This browser did not say at which address it looks at the page.')
  }
}

/** Why a passkey was not added. */
export function passkeyRefusalWords(refusal: PasskeyRefused): string {
  switch (refusal.kind) {
    case 'no-such-account':
      return say('This account is closed.')
    case 'too-many':
      return say('{most} passkeys are as many as are kept. Take away one that is not used any more.', { most: refusal.most })
    case 'challenge-over':
      return say('That took more than five minutes. Begin again.')
    case 'does-not-verify':
      return say(
        'What the device sent does not hold for this page, so the passkey was not kept. Begin again; if it happens once more, use another device.',
      )
    case 'known-already':
      return say('That passkey is on record already.')
  }
}

/** Why a passkey did not sign in. Says no more to a stranger than to its holder. */
export function passkeySignInRefusalWords(refusal: PasskeySignInRefused): string {
  switch (refusal.kind) {
    case 'challenge-over':
      return say('That took more than five minutes. Begin again.')
    case 'unknown-passkey':
      return say(
        'That passkey opens nothing here: it was taken away, or belongs to another collection. Sign in by name and password.',
      )
    case 'does-not-verify':
      return say('What the device sent does not hold for this page. Begin again, or sign in by name and password.')
    case 'copied':
      return say(
        'The passkey “{label}” has been used by a copy of it, so it is not taken. Sign in by name and password, and take it away under your account.',
        { label: refusal.label },
      )
    case 'account-closed':
      return say('This account is closed. A keeper can let you in again.')
  }
}

/** Why a passkey was left as it was. */
export function passkeyChangeRefusalWords(refusal: PasskeyChangeRefused): string {
  switch (refusal.kind) {
    case 'no-such-passkey':
      return say('That passkey was taken away already.')
    case 'last-way-in':
      return say('It is the only way you sign in. Set a password or add another passkey first.')
  }
}

/** Why a token was not made. */
export function tokenRefusalWords(refusal: TokenRefused): string {
  switch (refusal.kind) {
    case 'no-such-account':
      return say('This account is closed.')
    case 'beyond-role':
      return say('A {role} may {role2}; a token cannot do more than that.', {
        role: roleOptions().find(({ value }) => value === refusal.role)?.label,
        role2: roleWords[refusal.role],
      })
    case 'too-many':
      return say('{most} tokens are as many as are kept. Take back one that is not used any more.', { most: refusal.most })
    case 'over-already':
      return say('A token ends on a day to come.')
  }
}
