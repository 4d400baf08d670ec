/** What somebody may do: everything, the daily work, or look. */
export const roles = ['keeper', 'helper', 'looker'] as const
export type Role = (typeof roles)[number]

/** What is asked for: to look, to change what the daily work changes, or to keep house (people, settings, backups, everything in or out). */
export const rights = ['read', 'change', 'keep'] as const
export type Right = (typeof rights)[number]

/** Who asks for something. */
export type Who =
  /** There is no account: whoever sits at this machine. */
  | { kind: 'alone' }
  /** Accounts exist, and this one has not signed in. */
  | { kind: 'nobody' }
  /** The program itself: its clocks, background work, commands typed on its machine. */
  | { kind: 'program' }
  | SignedIn

export type SignedIn = {
  kind: 'account'
  accountId: string
  name: string
  role: Role
  /** Whose goods are seen; null for everybody's. */
  ownerIds: readonly string[] | null
  by: { kind: 'session'; sessionId: string } | { kind: 'token'; tokenId: string; scope: Right }
}

const most: Record<Role, Right> = { looker: 'read', helper: 'change', keeper: 'keep' }

/** The most a role may. */
export const reachOf = (role: Role): Right => most[role]

/** Whether who may the one may the other. */
export const reaches = (has: Right, asked: Right): boolean => rights.indexOf(has) >= rights.indexOf(asked)

/** Whether somebody may. A token never may more than its account. */
export function mayDo(who: Who, asked: Right): boolean {
  if (who.kind === 'nobody') return false
  if (who.kind !== 'account') return true
  // The house is kept by those who see all of it.
  if (asked === 'keep' && who.ownerIds !== null) return false
  return reaches(most[who.role], asked) && (who.by.kind === 'session' || reaches(who.by.scope, asked))
}

/** Whose goods somebody sees; null for everybody's. */
export const seenOwners = (who: Who): readonly string[] | null =>
  who.kind === 'account' ? who.ownerIds : who.kind === 'nobody' ? [] : null

/** Whether somebody sees all that another does: what was found for the other may be shown to them. */
export function seesAsMuch(who: Who, other: Who): boolean {
  const [seen, others] = [seenOwners(who), seenOwners(other)]
  return seen === null || (others?.every((id) => seen.includes(id)) ?? false)
}
