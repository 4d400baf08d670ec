import { say } from '#language/say'
import { findAccountByName } from '#lib/db/access/accounts'
import { asking } from '#lib/db/access/asking'
import { isPassword } from '#lib/db/access/passwords'
import { countTry, forgetTries } from '#lib/db/access/sign-in-limits'
import { signInRefusalWords } from '#words/sign-in'

/**
 * Why a password typed by whoever is signed in under this name is not taken; null where it is theirs. An account without one has nothing to be
 * asked for: it signed in by passkey.
 *
 * What outlasts a device's own signing out (another password, a passkey, a token) is made only by somebody who knows it, not by whoever
 * finds the device left open. It is tried no more often than at signing in.
 */
export async function refusePassword(name: string, password: string): Promise<string | null> {
  const found = await findAccountByName(name)
  if (found && found.passwordHash === null) return null
  const { waitSeconds } = await countTry(name, asking()?.address ?? '')
  if (waitSeconds > 0) return signInRefusalWords({ kind: 'wait', seconds: waitSeconds })
  if (!(await isPassword(found?.passwordHash ?? null, password))) return say('That is not your password.')
  await forgetTries(name)
  return null
}
