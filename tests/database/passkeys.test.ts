import { beforeAll, describe, expect, it } from 'vitest'
import { NotAllowed } from '#lib/access/not-allowed'
import { madePasskeySchema, type PasskeyPlace, usedPasskeySchema } from '#lib/access/passkey'
import { whileAsking } from '#lib/db/access/asking'
import {
  beginPasskey,
  beginPasskeySignIn,
  finishPasskey,
  finishPasskeySignIn,
  listPasskeys,
  mostPasskeys,
  removePasskey,
  renamePasskey,
} from '#lib/db/access/passkeys'
import { newId } from '#lib/db/new-id'
import { askingAs } from './asking-as'
import { Device, type Said } from './authenticator'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'

const place: PasskeyPlace = { rpId: 'larder.oxmarsh.example', origin: 'https://larder.oxmarsh.example' }
const said = (challenge: string, more: Partial<Said> = {}): Said => ({
  challenge,
  origin: place.origin,
  rpId: place.rpId,
  ...more,
})

describeOnEachEngine('passkeys', ({ open }) => {
  // So many refusals an hour are written down; others of this hour are not these tests' matter.
  beforeAll(() => {
    ;(globalThis as { larderRefusals?: unknown }).larderRefusals = undefined
  })

  let named = 0
  async function addAccount({ hasPassword = true } = {}): Promise<string> {
    named++
    const id = newId()
    await open().prisma.account.create({
      data: {
        id,
        name: `Ines Coldwell ${named}`,
        nameKey: `ines coldwell ${named}`,
        role: 'helper',
        passwordHash: hasPassword ? 'some hash' : null,
        createdAt: new Date(),
      },
    })
    return id
  }
  const deviceOf = (accountId: string) => new Device(Buffer.from(accountId).toString('base64url'))
  const label = 'Desk'

  async function register(device: Device, accountId: string, more: Partial<Said> = {}) {
    const { challenge } = granted(await beginPasskey({ accountId, place }))
    return finishPasskey({ accountId, place, label, made: device.make(said(challenge, more)) })
  }
  async function signIn(device: Device, more: Partial<Said> = {}) {
    const { challenge } = await beginPasskeySignIn(place)
    return finishPasskeySignIn({ place, used: device.use(said(challenge, more)) })
  }
  async function addWithPasskey(more: Partial<Said> = {}) {
    const accountId = await addAccount()
    const device = deviceOf(accountId)
    const passkey = granted(await register(device, accountId, more))
    return { accountId, device, passkey }
  }
  const rowOf = (passkeyId: string) => open().prisma.passkey.findUniqueOrThrow({ where: { id: passkeyId } })
  const lastEntry = () => open().prisma.auditEntry.findFirstOrThrow({ orderBy: { id: 'desc' } })

  it('is made for this place, found by itself later, with the person made sure of', async () => {
    const accountId = await addAccount()
    const options = granted(await beginPasskey({ accountId, place }))
    expect(options).toMatchObject({
      rp: { id: place.rpId },
      attestation: 'none',
      authenticatorSelection: { residentKey: 'required', userVerification: 'required' },
    })
    expect(Buffer.from(options.user.id, 'base64url').toString()).toBe(accountId)
    // W3C Web Authentication Level 3, section 13.4.3: at least 16 bytes.
    expect(Buffer.from(options.challenge, 'base64url').length).toBeGreaterThanOrEqual(16)
    const asked = await beginPasskeySignIn(place)
    expect(asked).toMatchObject({ rpId: place.rpId, userVerification: 'required' })
    expect(asked.allowCredentials ?? []).toEqual([])
  })

  it('signs its holder in, again and again, and says when it was last used', async () => {
    const { accountId, device, passkey } = await addWithPasskey({ counter: 4 })
    expect(passkey).toMatchObject({ label, usedAt: null, isShared: false, isBackedUp: false })
    expect(granted(await signIn(device, { counter: 5 }))).toMatchObject({ accountId, passkeyId: passkey.id })
    expect(granted(await signIn(device, { counter: 9 }))).toMatchObject({ accountId })
    expect(await rowOf(passkey.id)).toMatchObject({ counter: '9' })
    expect((await listPasskeys(accountId))[0]?.usedAt).toBeInstanceOf(Date)
  })

  it('takes a device that counts nothing', async () => {
    const { device } = await addWithPasskey()
    granted(await signIn(device))
    granted(await signIn(device))
  })

  it('keeps whether it is backed up, as that stands at each use', async () => {
    const { accountId, device } = await addWithPasskey({ isBackupEligible: true })
    expect((await listPasskeys(accountId))[0]).toMatchObject({ isShared: true, isBackedUp: false })
    granted(await signIn(device, { isBackupEligible: true, isBackedUp: true }))
    expect((await listPasskeys(accountId))[0]).toMatchObject({ isShared: true, isBackedUp: true })
  })

  it('reads as a browser sends it', async () => {
    const device = deviceOf(newId())
    const made = device.make(said('AAAA'))
    expect(madePasskeySchema.parse({ ...made, authenticatorAttachment: 'platform', clientExtensionResults: {} })).toEqual(made)
    const used = device.use(said('AAAA'))
    expect(usedPasskeySchema.parse({ ...used, clientExtensionResults: {} })).toEqual(used)
    expect(usedPasskeySchema.safeParse({ ...used, id: '../..' }).success).toBe(false)
  })

  describe('is not made', () => {
    const refusedAs = (kind: string) => ({ ok: false, error: { kind } })

    it.each([
      ['at another site', { origin: 'https://larder.oxmarsh.example.evil.example' }],
      ['without HTTPS', { origin: 'http://larder.oxmarsh.example' }],
      ['for another place', { rpId: 'evil.example' }],
      ['by somebody not made sure of', { isVerified: false }],
      ['backed up, where it says that it cannot be', { isBackedUp: true }],
    ])('%s', async (_, more: Partial<Said>) => {
      const accountId = await addAccount()
      expect(await register(deviceOf(accountId), accountId, more)).toEqual(refusedAs('does-not-verify'))
      expect(await listPasskeys(accountId)).toEqual([])
    })

    it('twice by what was to be signed once, not even where it was refused', async () => {
      const accountId = await addAccount()
      const device = deviceOf(accountId)
      const { challenge } = granted(await beginPasskey({ accountId, place }))
      const made = device.make(said(challenge, { isVerified: false }))
      expect(await finishPasskey({ accountId, place, label, made })).toEqual(refusedAs('does-not-verify'))
      const right = device.make(said(challenge))
      expect(await finishPasskey({ accountId, place, label, made: right })).toEqual(refusedAs('challenge-over'))
    })

    it('by what another account, or a sign-in, was given to sign', async () => {
      const [accountId, otherId] = [await addAccount(), await addAccount()]
      const { challenge } = granted(await beginPasskey({ accountId: otherId, place }))
      const made = deviceOf(accountId).make(said(challenge))
      expect(await finishPasskey({ accountId, place, label, made })).toEqual(refusedAs('challenge-over'))
      const signing = (await beginPasskeySignIn(place)).challenge
      const madeBySignIn = deviceOf(accountId).make(said(signing))
      expect(await finishPasskey({ accountId, place, label, made: madeBySignIn })).toEqual(refusedAs('challenge-over'))
    })

    it('with a maker’s certificates, which nobody asked for', async () => {
      const accountId = await addAccount()
      const { challenge } = granted(await beginPasskey({ accountId, place }))
      const made = deviceOf(accountId).make(said(challenge), 'packed with certificates')
      expect(await finishPasskey({ accountId, place, label, made })).toEqual(refusedAs('does-not-verify'))
    })

    it('a second time by one device, for whichever account', async () => {
      const { device, accountId } = await addWithPasskey()
      expect(await register(device, accountId)).toEqual(refusedAs('known-already'))
      expect(await register(device, await addAccount())).toEqual(refusedAs('known-already'))
    })

    it('beyond so many, or for an account that is closed', async () => {
      const accountId = await addAccount()
      const kept = { accountId, publicKey: 'x', counter: '0', deviceType: 'multiDevice', isBackedUp: true, label }
      await open().prisma.passkey.createMany({
        data: Array.from({ length: mostPasskeys }, () => ({
          ...kept,
          id: newId(),
          credentialId: newId(),
          createdAt: new Date(),
        })),
      })
      expect(await beginPasskey({ accountId, place })).toEqual({ ok: false, error: { kind: 'too-many', most: mostPasskeys } })
      const closedId = await addAccount()
      await open().prisma.account.update({ where: { id: closedId }, data: { closedAt: new Date() } })
      expect(await beginPasskey({ accountId: closedId, place })).toEqual(refusedAs('no-such-account'))
    })

    it('from what does not read', async () => {
      const accountId = await addAccount()
      const { challenge } = granted(await beginPasskey({ accountId, place }))
      const made = deviceOf(accountId).make(said(challenge))
      const spoilt = { ...made, response: { ...made.response, attestationObject: 'AAAA' } }
      expect(await finishPasskey({ accountId, place, label, made: spoilt })).toEqual(refusedAs('does-not-verify'))
      const unread = { ...made, response: { ...made.response, clientDataJSON: 'AAAA' } }
      expect(await finishPasskey({ accountId, place, label, made: unread })).toEqual(refusedAs('challenge-over'))
    })
  })

  describe('does not sign in', () => {
    it.each([
      ['at another site', { origin: 'https://evil.example' }],
      ['for another place', { rpId: 'evil.example' }],
      ['somebody not made sure of', { isVerified: false }],
      ['where it was of one device and says now that it is of many', { isBackupEligible: true }],
    ])('%s', async (_, more: Partial<Said>) => {
      const { accountId, device, passkey } = await addWithPasskey()
      expect(await signIn(device, more)).toEqual({ ok: false, error: { kind: 'does-not-verify' } })
      expect(await lastEntry()).toMatchObject({ kind: 'refused', what: 'wrong-passkey', accountId })
      expect((await rowOf(passkey.id)).usedAt).toBeNull()
    })

    it('twice by one signature', async () => {
      const { device } = await addWithPasskey()
      const { challenge } = await beginPasskeySignIn(place)
      const used = device.use(said(challenge))
      granted(await finishPasskeySignIn({ place, used }))
      expect(await finishPasskeySignIn({ place, used })).toEqual({ ok: false, error: { kind: 'challenge-over' } })
    })

    it('five minutes after it was asked', async () => {
      const { device } = await addWithPasskey()
      const { challenge } = await beginPasskeySignIn(place)
      const row = await open().prisma.signInChallenge.findUniqueOrThrow({ where: { challenge } })
      expect(Math.abs(row.expiresAt.getTime() - Date.now() - 300_000)).toBeLessThan(60_000)
      await open().prisma.signInChallenge.update({ where: { challenge }, data: { expiresAt: new Date(Date.now() - 1) } })
      expect(await finishPasskeySignIn({ place, used: device.use(said(challenge)) })).toEqual({
        ok: false,
        error: { kind: 'challenge-over' },
      })
      // The next that begins clears such away.
      await beginPasskeySignIn(place)
      expect(await open().prisma.signInChallenge.count({ where: { challenge } })).toBe(0)
    })

    it('where its counter went back or stood still, for then there is a copy', async () => {
      const { device, passkey } = await addWithPasskey({ counter: 7 })
      for (const counter of [7, 6, 0])
        expect(await signIn(device, { counter })).toEqual({ ok: false, error: { kind: 'copied', label } })
      const entry = await lastEntry()
      expect(JSON.parse(entry.detailJson)).toEqual({ why: 'copied', label })
      expect(await rowOf(passkey.id)).toMatchObject({ counter: '7', usedAt: null })
      granted(await signIn(device, { counter: 8 }))
    })

    it('with a key that is not the one kept', async () => {
      const { accountId, device } = await addWithPasskey()
      const forged = deviceOf(accountId)
      const { challenge } = await beginPasskeySignIn(place)
      const id = device.credentialId.toString('base64url')
      const used = { ...forged.use(said(challenge)), id, rawId: id }
      expect(await finishPasskeySignIn({ place, used })).toEqual({ ok: false, error: { kind: 'does-not-verify' } })
    })

    it('where the device says that it is somebody else’s, or nobody’s', async () => {
      const { device } = await addWithPasskey()
      const otherId = await addAccount()
      for (const userHandle of [Buffer.from(otherId).toString('base64url'), undefined]) {
        const { challenge } = await beginPasskeySignIn(place)
        const used = device.use(said(challenge))
        const response = { ...used.response, userHandle }
        expect(await finishPasskeySignIn({ place, used: { ...used, response } })).toEqual({
          ok: false,
          error: { kind: 'does-not-verify' },
        })
      }
    })

    it('where it was never kept here, or taken away', async () => {
      const stranger = deviceOf(newId())
      expect(await signIn(stranger)).toEqual({ ok: false, error: { kind: 'unknown-passkey' } })
      expect(await lastEntry()).toMatchObject({ kind: 'refused', accountId: null })
      const { accountId, device, passkey } = await addWithPasskey()
      granted(await removePasskey({ accountId, passkeyId: passkey.id }))
      expect(await signIn(device)).toEqual({ ok: false, error: { kind: 'unknown-passkey' } })
    })

    it('where the account is closed', async () => {
      const { accountId, device } = await addWithPasskey()
      await open().prisma.account.update({ where: { id: accountId }, data: { closedAt: new Date() } })
      expect(await signIn(device)).toEqual({ ok: false, error: { kind: 'account-closed' } })
    })
  })

  it('is called otherwise, and taken away, by its own account only', async () => {
    const { accountId, passkey } = await addWithPasskey()
    const otherId = await addAccount()
    const [mine, others] = [
      { accountId, passkeyId: passkey.id },
      { accountId: otherId, passkeyId: passkey.id },
    ]
    const unknown = { ok: false, error: { kind: 'no-such-passkey' } }
    expect(await renamePasskey({ ...others, label: 'Mine now' })).toEqual(unknown)
    expect(await removePasskey(others)).toEqual(unknown)
    granted(await renamePasskey({ ...mine, label: 'Key on the hook' }))
    expect(granted(await removePasskey(mine))).toMatchObject({ label: 'Key on the hook' })
    expect(await listPasskeys(accountId)).toEqual([])
    expect(await lastEntry()).toMatchObject({ kind: 'account', what: 'passkey-removed' })
  })

  it('stays where it is the last way in', async () => {
    const accountId = await addAccount({ hasPassword: false })
    const [first, second] = [
      granted(await register(deviceOf(accountId), accountId)),
      granted(await register(deviceOf(accountId), accountId)),
    ]
    granted(await removePasskey({ accountId, passkeyId: first.id }))
    expect(await removePasskey({ accountId, passkeyId: second.id })).toEqual({ ok: false, error: { kind: 'last-way-in' } })
    expect(await listPasskeys(accountId)).toHaveLength(1)
  })

  it('is nobody else’s business, and no token’s', async () => {
    const { accountId, passkey } = await addWithPasskey()
    const byToken = askingAs({ accountId, by: { kind: 'token', tokenId: 't', scope: 'change' } })
    const removal = () => removePasskey({ accountId, passkeyId: passkey.id })
    const refusals = [
      () => whileAsking(askingAs({ accountId: newId() }), removal),
      () => whileAsking(byToken, removal),
      () => whileAsking(byToken, () => renamePasskey({ accountId, passkeyId: passkey.id, label: 'x' })),
    ]
    for (const ask of refusals) expect(ask).toThrow(NotAllowed)
    await expect(whileAsking(byToken, () => beginPasskey({ accountId, place }))).rejects.toThrow(NotAllowed)
    expect(await listPasskeys(accountId)).toHaveLength(1)
    granted(await whileAsking(askingAs({ accountId }), removal))
  })
})
