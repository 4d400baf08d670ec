/** Who is signed in just now, what was answered lately and what is at work: of this moment, and in no backup. */
export const ofTheMoment = ['Session', 'ApiToken', 'SignInChallenge', 'AnsweredKey', 'BackgroundJob'] as const

/** Who may come in. They leave with a backup; where there are accounts already, a restored backup changes none of them. */
export const accountTables = ['Account', 'AccountOwner', 'Passkey'] as const

/** Only ever added to: what a backup has of it and is not here comes beside what is. */
export const addedTo = ['AuditEntry'] as const

const among = (names: readonly string[], name: string): boolean => names.includes(name)

export const isOfTheMoment = (table: string): boolean => among(ofTheMoment, table)

/** What becomes of a table when a backup is restored. */
export function onRestore(table: string, hasAccounts: boolean): 'replaced' | 'added to' | 'left' {
  if (isOfTheMoment(table) || (hasAccounts && among(accountTables, table))) return 'left'
  return among(addedTo, table) ? 'added to' : 'replaced'
}
