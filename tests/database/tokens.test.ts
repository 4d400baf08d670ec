import { describe, expect, it } from 'vitest'
import { NotAllowed } from '#lib/access/not-allowed'
import { mayDo, type Role } from '#lib/access/who'
import { whileAsking } from '#lib/db/access/asking'
import { holderOfToken, listTokens, makeToken, mostTokens, revokeToken } from '#lib/db/access/tokens'
import { newId } from '#lib/db/new-id'
import { askingAs } from './asking-as'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { theShop } from './things'

const hourMs = 3_600_000
const soon = () => new Date(Date.now() + hourMs)

describeOnEachEngine('API tokens', ({ open }) => {
  let named = 0
  async function addAccount(role: Role = 'helper') {
    named++
    const account = { id: newId(), name: `Corrie Dunn ${named}`, nameKey: `corrie dunn ${named}`, role, createdAt: new Date() }
    await open().prisma.account.create({ data: account })
    return account
  }
  const usual = (accountId: string) => ({ accountId, label: 'Till', scope: 'read' as const, expiresAt: null })
  const make = async (input: Parameters<typeof makeToken>[0]) => granted(await makeToken(input))

  it('opens the door for its account, by its scope, with the owners it may see', async () => {
    const { prisma } = open()
    const account = await addAccount('helper')
    const shop = theShop()
    await prisma.owner.create({ data: shop })
    await prisma.account.update({ where: { id: account.id }, data: { seesEveryOwner: false } })
    await prisma.accountOwner.create({ data: { accountId: account.id, ownerId: shop.id } })
    const { token, text } = await make(usual(account.id))
    const holder = await holderOfToken(text)
    expect(holder).toEqual({
      kind: 'account',
      accountId: account.id,
      name: account.name,
      role: 'helper',
      ownerIds: [shop.id],
      by: { kind: 'token', tokenId: token.id, scope: 'read' },
    })
    expect(holder && mayDo(holder, 'change')).toBe(false)
  })

  it('keeps nothing by which the token could be had again', async () => {
    const account = await addAccount()
    const { token, text } = await make(usual(account.id))
    const row = await open().prisma.apiToken.findUniqueOrThrow({ where: { id: token.id } })
    const kept = JSON.stringify(row)
    expect(kept).not.toContain(text)
    expect(kept).not.toContain(text.slice('larder_'.length, -6))
    expect(JSON.stringify(await listTokens(account.id))).not.toContain(row.secretHash)
  })

  it('is refused beyond the role of its account, and follows when that becomes less', async () => {
    const account = await addAccount('helper')
    expect(await makeToken({ ...usual(account.id), scope: 'keep' })).toEqual({
      ok: false,
      error: { kind: 'beyond-role', role: 'helper', scope: 'keep' },
    })
    const { text } = await make({ ...usual(account.id), scope: 'change' })
    await open().prisma.account.update({ where: { id: account.id }, data: { role: 'looker' } })
    const holder = await holderOfToken(text)
    expect(holder && mayDo(holder, 'change')).toBe(false)
    expect(holder && mayDo(holder, 'read')).toBe(true)
  })

  describe('opens nothing', () => {
    it('mistyped, or made up', async () => {
      const account = await addAccount()
      const { text } = await make(usual(account.id))
      expect(await holderOfToken(text.slice(0, -1))).toBeNull()
      expect(await holderOfToken(text.replace(/.$/, (last) => (last === 'A' ? 'B' : 'A')))).toBeNull()
      expect(await holderOfToken('')).toBeNull()
    })

    it('once it is over', async () => {
      const account = await addAccount()
      const { token, text } = await make({ ...usual(account.id), expiresAt: soon() })
      expect(await holderOfToken(text)).not.toBeNull()
      await open().prisma.apiToken.update({ where: { id: token.id }, data: { expiresAt: new Date(Date.now() - 1) } })
      expect(await holderOfToken(text)).toBeNull()
    })

    it('once its account is closed', async () => {
      const account = await addAccount()
      const { text } = await make(usual(account.id))
      await open().prisma.account.update({ where: { id: account.id }, data: { closedAt: new Date() } })
      expect(await holderOfToken(text)).toBeNull()
      expect(await makeToken(usual(account.id))).toEqual({ ok: false, error: { kind: 'no-such-account' } })
    })

    it('once it was taken back; by its own account only', async () => {
      const [account, other] = [await addAccount(), await addAccount()]
      const { token, text } = await make(usual(account.id))
      expect(await revokeToken({ accountId: other.id, tokenId: token.id })).toEqual({
        ok: false,
        error: { kind: 'no-such-token' },
      })
      expect(await holderOfToken(text)).not.toBeNull()
      expect(granted(await revokeToken({ accountId: account.id, tokenId: token.id }))).toMatchObject({ label: 'Till' })
      expect(await holderOfToken(text)).toBeNull()
      expect(await listTokens(account.id)).toEqual([])
    })
  })

  it('is made by its account’s own hand, by no other token, and both ends of it stand in the log', async () => {
    const account = await addAccount('helper')
    const onDevice = askingAs({ accountId: account.id, name: account.name })
    const byToken = askingAs({ accountId: account.id, by: { kind: 'token', tokenId: 't', scope: 'change' } })
    expect(() => whileAsking(byToken, () => makeToken(usual(account.id)))).toThrow(NotAllowed)
    const other = await addAccount('helper')
    expect(() => whileAsking(onDevice, () => makeToken(usual(other.id)))).toThrow(NotAllowed)
    const { token } = await whileAsking(onDevice, () => make(usual(account.id)))
    expect(() => whileAsking(byToken, () => revokeToken({ accountId: account.id, tokenId: token.id }))).toThrow(NotAllowed)
    await whileAsking(onDevice, () => revokeToken({ accountId: account.id, tokenId: token.id }))
    const log = await open().prisma.auditEntry.findMany({ where: { accountId: account.id }, orderBy: { id: 'asc' } })
    expect(log.map(({ kind, what, address }) => [kind, what, address])).toEqual([
      ['account', 'token-added', '192.168.1.20'],
      ['account', 'token-removed', '192.168.1.20'],
    ])
  })

  it('says when it was last used, to the hour', async () => {
    const account = await addAccount()
    const { token, text } = await make(usual(account.id))
    const usedAt = async () => (await listTokens(account.id))[0]?.usedAt ?? null
    expect(await usedAt()).toBeNull()
    await holderOfToken(text)
    const first = await usedAt()
    expect(first).toBeInstanceOf(Date)
    await holderOfToken(text)
    expect(await usedAt()).toEqual(first)
    const anHourAgo = new Date(Date.now() - hourMs)
    await open().prisma.apiToken.update({ where: { id: token.id }, data: { usedAt: anHourAgo } })
    await holderOfToken(text)
    expect((await usedAt())?.getTime()).toBeGreaterThan(anHourAgo.getTime())
  })

  it('is refused over before it begins, and beyond so many', async () => {
    const account = await addAccount()
    expect(await makeToken({ ...usual(account.id), expiresAt: new Date(Date.now() - 1) })).toEqual({
      ok: false,
      error: { kind: 'over-already' },
    })
    for (let made = 0; made < mostTokens; made++) await make(usual(account.id))
    expect(await makeToken(usual(account.id))).toEqual({ ok: false, error: { kind: 'too-many', most: mostTokens } })
    expect(await listTokens(account.id)).toHaveLength(mostTokens)
  })
})
