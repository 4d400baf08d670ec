import { describe, expect, it } from 'vitest'
import { mayDo, type Right, type Role, reaches, reachOf, rights, roles, type SignedIn, seenOwners } from '#lib/access/who'

const somebody = (role: Role, scope?: Right, ownerIds: string[] | null = null): SignedIn => ({
  kind: 'account',
  accountId: 'a',
  name: 'Corrie Dunn',
  role,
  ownerIds,
  by: scope === undefined ? { kind: 'session', sessionId: 's' } : { kind: 'token', tokenId: 't', scope },
})

/** Written out by hand from what the roles are: a looker looks, a helper changes too, a keeper keeps house. */
const may: Record<Role, Right[]> = {
  looker: ['read'],
  helper: ['read', 'change'],
  keeper: ['read', 'change', 'keep'],
}

describe('who may', () => {
  it.each(roles)('a %s, signed in', (role) => {
    expect(rights.filter((right) => mayDo(somebody(role), right))).toEqual(may[role])
  })

  it.each(roles.flatMap((role) => rights.map((scope) => ({ role, scope }))))(
    'a token of a $role to $scope never may more than either',
    ({ role, scope }) => {
      const both = may[role].filter((right) => rights.indexOf(right) <= rights.indexOf(scope))
      expect(rights.filter((right) => mayDo(somebody(role, scope), right))).toEqual(both)
    },
  )

  it('keeps house only with everybody’s goods in sight', () => {
    expect(rights.filter((right) => mayDo(somebody('keeper', undefined, ['shop']), right))).toEqual(['read', 'change'])
  })

  it('nobody may nothing, and whoever sits alone at the machine everything', () => {
    expect(rights.filter((right) => mayDo({ kind: 'nobody' }, right))).toEqual([])
    expect(rights.filter((right) => mayDo({ kind: 'alone' }, right))).toEqual([...rights])
    expect(rights.filter((right) => mayDo({ kind: 'program' }, right))).toEqual([...rights])
  })

  it('a role reaches as far as the last of what it may', () => {
    for (const role of roles) expect(rights.filter((right) => reaches(reachOf(role), right))).toEqual(may[role])
  })
})

it('sees the goods it may see, nobody none, the machine itself everybody’s', () => {
  expect(seenOwners(somebody('helper', undefined, ['shop']))).toEqual(['shop'])
  expect(seenOwners(somebody('helper'))).toBeNull()
  expect(seenOwners({ kind: 'nobody' })).toEqual([])
  expect(seenOwners({ kind: 'alone' })).toBeNull()
})
