import { findAccountByName } from '#lib/db/access/accounts'
import { isPassword } from '#lib/db/access/passwords'

/**
 * Whether it is the password of this account. One without a password has nothing to be asked for: it signed in by passkey.
 *
 * What lasts beyond a device's own signing out (another password, a passkey, a token) is made only by somebody who knows it, not by
 * whoever finds the device left open.
 */
export async function isOwnPassword(name: string, password: string): Promise<boolean> {
  const found = await findAccountByName(name)
  if (!found) return false
  return found.passwordHash === null || isPassword(found.passwordHash, password)
}
