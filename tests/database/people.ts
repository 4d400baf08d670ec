import type { Database } from '#lib/db/client'
import { newId } from '#lib/db/new-id'

export const signInSecret = 'digest-of-a-secret-that-must-not-leave'

/** Somebody who sees one owner's goods, with a device, a token, what was answered to them, and a line in the log. */
export async function addPerson({ prisma }: Database, name: string, ownerId: string): Promise<string> {
  const [at, later, accountId] = [new Date('2026-11-30T08:09:10.123Z'), new Date('2027-11-30T00:00:00Z'), newId()]
  await prisma.account.create({ data: { id: accountId, name, nameKey: name.toLowerCase(), role: 'keeper', createdAt: at } })
  await prisma.accountOwner.create({ data: { accountId, ownerId } })
  await prisma.passkey.create({
    data: {
      id: newId(),
      accountId,
      credentialId: `c-${name}`,
      publicKey: 'k',
      counter: '0',
      deviceType: 'multiDevice',
      isBackedUp: true,
      label: 'phone',
      createdAt: at,
    },
  })
  await prisma.session.create({
    data: {
      id: newId(),
      accountId,
      secretHash: `${signInSecret} ${name}`,
      rotatedAt: at,
      createdAt: at,
      usedAt: at,
      expiresAt: later,
      device: '',
      address: '',
    },
  })
  await prisma.apiToken.create({
    data: { id: newId(), accountId, label: 'till', secretHash: `${signInSecret} token ${name}`, scope: 'read', createdAt: at },
  })
  await prisma.signInChallenge.create({
    data: { id: newId(), challenge: `${signInSecret} ${name}`, purpose: 'sign-in', expiresAt: later },
  })
  await prisma.answeredKey.create({ data: { id: newId(), scope: `${signInSecret} ${name}`, fingerprint: 'f', createdAt: at } })
  await prisma.backgroundJob.create({
    data: {
      id: newId(),
      kind: 'a kind',
      state: 'ended',
      aboutJson: `"${signInSecret}"`,
      progressJson: 'null',
      startedAt: at,
      endedAt: at,
    },
  })
  await prisma.auditEntry.create({
    data: { id: newId(), at, kind: 'sign-in', accountName: name, address: '', what: 'signed-in' },
  })
  return accountId
}
