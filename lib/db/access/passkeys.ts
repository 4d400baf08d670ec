import 'server-only'
import {
  generateAuthenticationOptions,
  generateRegistrationOptions,
  type PublicKeyCredentialCreationOptionsJSON,
  type PublicKeyCredentialRequestOptionsJSON,
  verifyAuthenticationResponse,
  verifyRegistrationResponse,
} from '@simplewebauthn/server'
import { decodeAttestationObject } from '@simplewebauthn/server/helpers'
import {
  isCounterGoingOn,
  isLastWayIn,
  type MadePasskey,
  type PasskeyPlace,
  readChallenge,
  type UsedPasskey,
} from '#lib/access/passkey'
import { ok, type Result, refused } from '#lib/result'
import { database } from '../client'
import { newId } from '../new-id'
import { writeTo } from '../write-gate'
import { addAuditEntry } from './audit'
import { requireSelfOrKeeper } from './right'
import { logRefusal } from './sign-in'

export const mostPasskeys = 20
/** How long a person has for it. */
const challengeMs = 5 * 60_000

export type Passkey = {
  id: string
  label: string
  createdAt: Date
  usedAt: Date | null
  /** Kept beyond the one device it was made on, such as in a password manager. */
  isShared: boolean
  isBackedUp: boolean
}

export type PasskeyRefused =
  | { kind: 'no-such-account' }
  | { kind: 'too-many'; most: number }
  /** What was to be signed is not known: too long ago, or used already. */
  | { kind: 'challenge-over' }
  /** What came is not what was asked for: another site, a wrong signature, nobody verified. */
  | { kind: 'does-not-verify' }
  | { kind: 'known-already' }

export type PasskeySignInRefused =
  | { kind: 'challenge-over' }
  | { kind: 'does-not-verify' }
  /** The device has a passkey that was taken away here. */
  | { kind: 'unknown-passkey' }
  /** Its counter went back: there is a copy of it. */
  | { kind: 'copied'; label: string }
  | { kind: 'account-closed' }

export type SignedInByPasskey = { accountId: string; name: string; passkeyId: string }

const columns = {
  id: true,
  label: true,
  createdAt: true,
  usedAt: true,
  deviceType: true,
  isBackedUp: true,
} as const

const toPasskey = ({ deviceType, ...row }: Omit<Passkey, 'isShared'> & { deviceType: string }): Passkey => ({
  ...row,
  isShared: deviceType === 'multiDevice',
})

type Purpose = 'register' | 'sign-in'

async function keepChallenge(challenge: string, purpose: Purpose, accountId: string | null): Promise<void> {
  await writeTo(database(), async ({ tx, at }) => {
    await tx.signInChallenge.deleteMany({ where: { expiresAt: { lte: at } } })
    await tx.signInChallenge.create({
      data: { id: newId(), challenge, purpose, accountId, expiresAt: new Date(at.getTime() + challengeMs) },
    })
    return ok(null)
  })
}

/** Take what was to be signed: whatever comes of it, it is good for this once. Null where there is none such. */
async function takeChallenge(clientDataJSON: string, purpose: Purpose, accountId: string | null): Promise<string | null> {
  const challenge = readChallenge(clientDataJSON)
  if (challenge === null) return null
  const taken = await writeTo<boolean, never>(database(), async ({ tx, at }) => {
    const where = { challenge, purpose, accountId }
    const { count } = await tx.signInChallenge.deleteMany({ where: { ...where, expiresAt: { gt: at } } })
    return ok(count === 1)
  })
  return taken.ok && taken.value ? challenge : null
}

/** An account's passkeys, first come first. */
export async function listPasskeys(accountId: string): Promise<Passkey[]> {
  const rows = await database().prisma.passkey.findMany({ where: { accountId }, select: columns, orderBy: { id: 'asc' } })
  return rows.map(toPasskey)
}

/**
 * What the browser is to make a passkey from. The device finds it by itself later, so that no name is typed, and makes sure of the person
 * (a finger, a face, a PIN): it stands for a password, and a key left in a machine must not open for whoever touches it.
 */
export async function beginPasskey(input: {
  accountId: string
  place: PasskeyPlace
}): Promise<Result<PublicKeyCredentialCreationOptionsJSON, PasskeyRefused>> {
  const { accountId, place } = input
  requireSelfOrKeeper(accountId)
  const account = await database().prisma.account.findFirst({
    where: { id: accountId, closedAt: null },
    select: { name: true, passkeys: { select: { credentialId: true, transportsJson: true } } },
  })
  if (!account) return refused({ kind: 'no-such-account' })
  if (account.passkeys.length >= mostPasskeys) return refused({ kind: 'too-many', most: mostPasskeys })
  const options = await generateRegistrationOptions({
    rpName: 'Chart Larder',
    rpID: place.rpId,
    userName: account.name,
    userDisplayName: account.name,
    userID: new Uint8Array(Buffer.from(accountId)),
    attestationType: 'none',
    timeout: challengeMs,
    excludeCredentials: account.passkeys.map(({ credentialId, transportsJson }) => ({
      id: credentialId,
      transports: JSON.parse(transportsJson) as string[],
    })),
    authenticatorSelection: { residentKey: 'required', userVerification: 'required' },
  })
  await keepChallenge(options.challenge, 'register', accountId)
  return ok(options)
}

/**
 * No statement of the maker's is asked for, and one with certificates is not taken: whether those still hold would be looked up at an address
 * that stands in them.
 */
function hasCertificates(attestationObject: string): boolean {
  const made = decodeAttestationObject(new Uint8Array(Buffer.from(attestationObject, 'base64url')))
  const format = made.get('fmt')
  return !(format === 'none' || (format === 'packed' && made.get('attStmt').get('x5c') === undefined))
}

async function verifyMade(made: MadePasskey, challenge: string, place: PasskeyPlace) {
  try {
    if (hasCertificates(made.response.attestationObject)) return null
    const { transports, ...response } = made.response
    const verified = await verifyRegistrationResponse({
      response: { ...made, response, clientExtensionResults: {} },
      expectedChallenge: challenge,
      expectedOrigin: place.origin,
      expectedRPID: place.rpId,
      requireUserVerification: true,
    })
    return verified.verified ? { ...verified.registrationInfo, transports: transports ?? [] } : null
  } catch {
    // The library throws for whatever a stranger may send that does not hold; no sentence of its would help them.
    return null
  }
}

/** Keep the passkey a device has made. */
export async function finishPasskey(input: {
  accountId: string
  place: PasskeyPlace
  label: string
  made: MadePasskey
}): Promise<Result<Passkey, PasskeyRefused>> {
  const { accountId, place, label, made } = input
  requireSelfOrKeeper(accountId)
  const challenge = await takeChallenge(made.response.clientDataJSON, 'register', accountId)
  if (challenge === null) return refused({ kind: 'challenge-over' })
  const verified = await verifyMade(made, challenge, place)
  if (!verified) return refused({ kind: 'does-not-verify' })
  return writeTo<Passkey, PasskeyRefused>(database(), async ({ tx, at }) => {
    const account = await tx.account.findFirst({
      where: { id: accountId, closedAt: null },
      select: { name: true, _count: { select: { passkeys: true } } },
    })
    if (!account) return refused({ kind: 'no-such-account' })
    if (account._count.passkeys >= mostPasskeys) return refused({ kind: 'too-many', most: mostPasskeys })
    const credentialId = verified.credential.id
    if (await tx.passkey.findUnique({ where: { credentialId }, select: { id: true } })) return refused({ kind: 'known-already' })
    const row = await tx.passkey.create({
      data: {
        id: newId(),
        accountId,
        credentialId,
        publicKey: Buffer.from(verified.credential.publicKey).toString('base64url'),
        counter: String(verified.credential.counter),
        transportsJson: JSON.stringify(verified.transports),
        deviceType: verified.credentialDeviceType,
        isBackedUp: verified.credentialBackedUp,
        label,
        createdAt: at,
      },
      select: columns,
    })
    await addAuditEntry(tx, {
      kind: 'account',
      what: 'passkey-added',
      at,
      detail: { accountId, name: account.name, label, at: place.rpId },
    })
    return ok(toPasskey(row))
  })
}

/** What the browser is to sign with whichever passkey of this place the person chooses. */
export async function beginPasskeySignIn(place: PasskeyPlace): Promise<PublicKeyCredentialRequestOptionsJSON> {
  const options = await generateAuthenticationOptions({
    rpID: place.rpId,
    timeout: challengeMs,
    userVerification: 'required',
  })
  await keepChallenge(options.challenge, 'sign-in', null)
  return options
}

type Kept = { credentialId: string; publicKey: string; deviceType: string }

async function verifyUsed(used: UsedPasskey, kept: Kept, challenge: string, place: PasskeyPlace) {
  const { userHandle, ...signed } = used.response
  try {
    const { verified, authenticationInfo } = await verifyAuthenticationResponse({
      response: { ...used, response: { ...signed, ...(userHandle !== undefined && { userHandle }) }, clientExtensionResults: {} },
      expectedChallenge: challenge,
      expectedOrigin: place.origin,
      expectedRPID: place.rpId,
      // The counter is held against ours below, after the signature: only what the key itself has signed says that there is a copy.
      credential: { id: kept.credentialId, publicKey: new Uint8Array(Buffer.from(kept.publicKey, 'base64url')), counter: 0 },
      requireUserVerification: true,
    })
    // A key says once and for all whether it may be kept in more places than one (W3C Web Authentication Level 3, section 7.2, step 19).
    return verified && authenticationInfo.credentialDeviceType === kept.deviceType ? authenticationInfo : null
  } catch {
    return null
  }
}

/**
 * Who signs in by what a device has signed. The account's name is not asked for: the passkey says whose it is, and what the device says of
 * that must agree.
 */
export async function finishPasskeySignIn(input: {
  place: PasskeyPlace
  used: UsedPasskey
}): Promise<Result<SignedInByPasskey, PasskeySignInRefused>> {
  const { place, used } = input
  const answer = await findSignedIn(place, used)
  if (!answer.ok) await noteRefusal(used.id, answer.error)
  return answer
}

async function findSignedIn(place: PasskeyPlace, used: UsedPasskey): Promise<Result<SignedInByPasskey, PasskeySignInRefused>> {
  const challenge = await takeChallenge(used.response.clientDataJSON, 'sign-in', null)
  if (challenge === null) return refused({ kind: 'challenge-over' })
  const kept = await database().prisma.passkey.findUnique({
    where: { credentialId: used.id },
    select: { id: true, accountId: true, credentialId: true, publicKey: true, counter: true, deviceType: true, label: true },
  })
  if (!kept) return refused({ kind: 'unknown-passkey' })
  const holder = used.response.userHandle
  if (holder === undefined || Buffer.from(holder, 'base64url').toString() !== kept.accountId)
    return refused({ kind: 'does-not-verify' })
  const verified = await verifyUsed(used, kept, challenge, place)
  if (!verified) return refused({ kind: 'does-not-verify' })
  if (!isCounterGoingOn(Number(kept.counter), verified.newCounter)) return refused({ kind: 'copied', label: kept.label })
  return writeTo<SignedInByPasskey, PasskeySignInRefused>(database(), async ({ tx, at }) => {
    const account = await tx.account.findFirst({
      where: { id: kept.accountId, closedAt: null },
      select: { id: true, name: true },
    })
    if (!account) return refused({ kind: 'account-closed' })
    const counted = await tx.passkey.updateMany({
      where: { id: kept.id, counter: kept.counter },
      data: { counter: String(verified.newCounter), isBackedUp: verified.credentialBackedUp, usedAt: at },
    })
    // Taken away, or used at the same moment somewhere else.
    if (counted.count === 0) return refused({ kind: 'unknown-passkey' })
    return ok({ accountId: account.id, name: account.name, passkeyId: kept.id })
  })
}

/** A refusal stands in the log with whose passkey it is, where that is known here. */
async function noteRefusal(credentialId: string, refusal: PasskeySignInRefused): Promise<void> {
  const passkey = await database().prisma.passkey.findUnique({
    where: { credentialId },
    select: { label: true, account: { select: { id: true, name: true } } },
  })
  const detail = { why: refusal.kind, ...(passkey && { label: passkey.label }) }
  await logRefusal({ kind: 'refused', what: 'wrong-passkey', detail }, passkey?.account ?? { id: null, name: '' }, new Date())
}

export type PasskeyChangeRefused = { kind: 'no-such-passkey' } | { kind: 'last-way-in' }

/** Call a passkey otherwise. */
export function renamePasskey(input: {
  accountId: string
  passkeyId: string
  label: string
}): Promise<Result<null, PasskeyChangeRefused>> {
  const { accountId, passkeyId, label } = input
  requireSelfOrKeeper(accountId)
  return writeTo<null, PasskeyChangeRefused>(database(), async ({ tx }) => {
    const renamed = await tx.passkey.updateMany({ where: { id: passkeyId, accountId }, data: { label } })
    return renamed.count === 0 ? refused({ kind: 'no-such-passkey' }) : ok(null)
  })
}

/** Take a passkey away: what the device keeps of it opens nothing from now on. */
export function removePasskey(input: { accountId: string; passkeyId: string }): Promise<Result<Passkey, PasskeyChangeRefused>> {
  const { accountId, passkeyId } = input
  requireSelfOrKeeper(accountId)
  return writeTo<Passkey, PasskeyChangeRefused>(database(), async ({ tx, at }) => {
    const passkey = await tx.passkey.findFirst({
      where: { id: passkeyId, accountId },
      select: {
        ...columns,
        account: { select: { name: true, passwordHash: true, passkeys: { select: { id: true } } } },
      },
    })
    if (!passkey) return refused({ kind: 'no-such-passkey' })
    const { account, ...row } = passkey
    const ways = { hasPassword: account.passwordHash !== null, passkeyIds: account.passkeys.map(({ id }) => id) }
    if (isLastWayIn(ways, passkeyId)) return refused({ kind: 'last-way-in' })
    await tx.passkey.delete({ where: { id: passkeyId } })
    await addAuditEntry(tx, {
      kind: 'account',
      what: 'passkey-removed',
      at,
      detail: { accountId, name: account.name, label: row.label },
    })
    return ok(toPasskey(row))
  })
}
