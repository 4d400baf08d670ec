import { describe, expect, it } from 'vitest'
import { NotAllowed } from '#lib/access/not-allowed'
import type { Role } from '#lib/access/who'
import { addAccount, changeAccount, closeAccount, countAccounts, findAccountByName, setPassword } from '#lib/db/access/accounts'
import { asking, whileAsking, who } from '#lib/db/access/asking'
import { accountsChanged, hasAccounts } from '#lib/db/access/known-accounts'
import { isPassword } from '#lib/db/access/passwords'
import { endSession, findSignedIn, listDevices, rotateSession, startSession } from '#lib/db/access/sessions'
import { signInByPassword } from '#lib/db/access/sign-in'
import { newId } from '#lib/db/new-id'
import { addOwner } from '#lib/db/owner/owners'
import { write } from '#lib/db/write'
import { askingAs } from './asking-as'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'

const minute = 60_000
const day = 24 * 60 * minute
const good = 'rooks over the linen press'

describeOnEachEngine('who comes in', ({ open, openAnother }) => {
  let named = 0
  const add = async (role: Role = 'helper') =>
    granted(await addAccount({ name: `Joss Tarrow ${++named}`, role, password: good, ownerIds: null }))
  const start = async (accountId: string) =>
    granted(await startSession({ accountId, how: 'password', device: 'Any/1.0', address: '192.168.1.20' }))
  const sessionRow = (id: string) => open().prisma.session.findUniqueOrThrow({ where: { id } })
  const later = (id: string, over: { usedAt?: Date; rotatedAt?: Date; expiresAt?: Date }) =>
    open().prisma.session.update({ where: { id }, data: over })
  const logOf = (kind: string) => open().prisma.auditEntry.findMany({ where: { kind }, orderBy: { id: 'asc' } })

  it('asks for a keeper first, and for nobody before there is one', async () => {
    accountsChanged()
    expect(await hasAccounts(Date.now())).toBe(false)
    const helper = { name: 'Ines Coldwell', role: 'helper' as const, password: good, ownerIds: null }
    expect(await addAccount(helper)).toEqual({ ok: false, error: { kind: 'first-is-keeper' } })
    expect(await countAccounts()).toBe(0)
    const keeper = granted(await addAccount({ ...helper, name: 'Nell Oxtoby', role: 'keeper' }))
    expect(await hasAccounts(Date.now())).toBe(true)
    expect(await addAccount({ ...helper, name: ' nell  OXTOBY'.trim() })).toEqual({
      ok: false,
      error: { kind: 'name-taken', name: 'nell  OXTOBY' },
    })
    expect(await addAccount({ ...helper, password: 'chartlarder1' })).toMatchObject({
      error: { kind: 'password', refusal: { kind: 'too-plain' } },
    })
    expect(await closeAccount(keeper)).toEqual({ ok: false, error: { kind: 'last-keeper', name: 'Nell Oxtoby' } })
    expect(await changeAccount({ ...keeper, role: 'helper' })).toMatchObject({ error: { kind: 'last-keeper' } })
    // Who sees only some owners' goods cannot keep house, and so nobody could.
    expect(await changeAccount({ ...keeper, ownerIds: [] })).toEqual({ ok: false, error: { kind: 'keeper-sees-all' } })
    expect(await addAccount({ ...helper, name: 'Mirabel Stoat', role: 'keeper', ownerIds: [] })).toMatchObject({
      error: { kind: 'keeper-sees-all' },
    })
  })

  it('keeps of a password only what Argon2id makes of it, by the figures OWASP gives', async () => {
    const account = await add()
    const { passwordHash } = (await findAccountByName(account.name)) ?? { passwordHash: null }
    expect(passwordHash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/)
    expect(await isPassword(passwordHash, good)).toBe(true)
    expect(await isPassword(passwordHash, `${good} `)).toBe(false)
    expect(await isPassword(null, good)).toBe(false)
    // The same letters from another keyboard.
    const typed = granted(await setPassword({ id: account.id, password: 'café au lait und rooks' }))
    const again = (await findAccountByName(typed.name))?.passwordHash ?? null
    expect(await isPassword(again, 'cafe\u0301 au lait und rooks')).toBe(true)
  })

  describe('a device', () => {
    it('is known by a secret of which only the digest is kept', async () => {
      const account = await add('looker')
      const { secret, sessionId } = await start(account.id)
      expect(await findSignedIn(secret, Date.now())).toEqual({
        ...{ kind: 'account', accountId: account.id, name: account.name, role: 'looker', ownerIds: null },
        by: { kind: 'session', sessionId },
      })
      expect(JSON.stringify(await sessionRow(sessionId))).not.toContain(secret)
      for (const other of ['', 'x'.repeat(43), secret.slice(1), `${secret}x`, (await sessionRow(sessionId)).secretHash])
        expect(await findSignedIn(other, Date.now())).toBeNull()
    })

    it('is out after a week without use, and after a month in all', async () => {
      const { secret, sessionId } = await start((await add()).id)
      const now = Date.now()
      expect(await findSignedIn(secret, now + 7 * day + minute)).toBeNull()
      await later(sessionId, { usedAt: new Date(now + 29 * day) })
      expect(await findSignedIn(secret, now + 29 * day + minute)).not.toBeNull()
      expect(await findSignedIn(secret, now + 30 * day + minute)).toBeNull()
    })

    it('gets another secret daily; the one before is good for a minute, and is handed the same', async () => {
      const { secret, sessionId } = await start((await add()).id)
      const now = Date.now()
      await findSignedIn(secret, now)
      expect(await rotateSession(secret, now)).toBeNull()
      await later(sessionId, { rotatedAt: new Date(now - day) })
      await findSignedIn(secret, now + 10_000)
      const rotated = await rotateSession(secret, now + 10_000)
      expect(rotated?.secret).toMatch(/^[\w-]{43}$/)
      expect(rotated?.secret).not.toBe(secret)
      expect(await findSignedIn(rotated?.secret ?? '', now + 20_000)).toMatchObject({ by: { sessionId } })
      expect(await findSignedIn(secret, now + 20_000)).toMatchObject({ by: { sessionId } })
      expect((await rotateSession(secret, now + 20_000))?.secret).toBe(rotated?.secret)
      expect(await findSignedIn(secret, now + 10_000 + minute)).toBeNull()
      expect(await findSignedIn(rotated?.secret ?? '', now + 2 * minute)).not.toBeNull()
    })

    it('has its last use written, once in some minutes', async () => {
      const { secret, sessionId } = await start((await add()).id)
      const now = Date.now()
      const before = (await sessionRow(sessionId)).usedAt
      await findSignedIn(secret, now + 4 * minute)
      await findSignedIn(secret, now + 6 * minute)
      await expect.poll(async () => (await sessionRow(sessionId)).usedAt.getTime()).toBe(now + 6 * minute)
      expect(before.getTime()).toBeLessThan(now + minute)
    })

    it('is out at once where it signs out, and everywhere when its account is closed or has another password', async () => {
      const account = await add()
      const [first, second, third] = [await start(account.id), await start(account.id), await start(account.id)]
      const now = Date.now()
      for (const { secret } of [first, second, third]) expect(await findSignedIn(secret, now)).not.toBeNull()
      expect(await endSession({ accountId: account.id, sessionId: first.sessionId, how: 'here' })).toBe(true)
      expect(await findSignedIn(first.secret, now)).toBeNull()
      granted(await setPassword({ id: account.id, password: `${good} again`, keepSessionId: third.sessionId }))
      expect(await findSignedIn(second.secret, now)).toBeNull()
      expect(await findSignedIn(third.secret, now)).not.toBeNull()
      expect((await listDevices(account.id, new Date(now))).map(({ id }) => id)).toEqual([third.sessionId])
      const version = (await findAccountByName(account.name))?.account.version ?? 0
      granted(await closeAccount({ id: account.id, version }))
      expect(await findSignedIn(third.secret, now)).toBeNull()
      expect(await startSession({ accountId: account.id, how: 'password', device: '', address: '' })).toMatchObject({ ok: false })
    })

    it('signed out by another process is out two seconds later', async () => {
      const { secret, sessionId } = await start((await add()).id)
      const now = Date.now()
      await findSignedIn(secret, now)
      await openAnother().prisma.session.delete({ where: { id: sessionId } })
      expect(await findSignedIn(secret, now + 2_000)).toBeNull()
    })
  })

  describe('a password typed', () => {
    const signIn = (name: string, password: string, address: string) =>
      signInByPassword({ name, password, device: 'Any/1.0', address })

    it('lets in, and is told apart from a wrong one and from an unknown name by nothing that is said', async () => {
      const account = await add()
      expect(granted(await signIn(account.name.toUpperCase(), good, '192.0.2.1')).name).toBe(account.name)
      const wrong = { ok: false, error: { kind: 'wrong' } }
      expect(await signIn(account.name, `${good}!`, '192.0.2.1')).toEqual(wrong)
      expect(await signIn('Nobody At All', good, '192.0.2.1')).toEqual(wrong)
      expect((await logOf('refused')).slice(-2).map(({ what, accountName, address }) => [what, accountName, address])).toEqual([
        ['wrong-password', account.name, ''],
        ['wrong-password', 'Nobody At All', ''],
      ])
      expect((await logOf('sign-in')).at(-1)).toMatchObject({
        what: 'password',
        accountId: account.id,
        accountName: account.name,
      })
    })

    it('is tried ten times by one name, whatever the addresses, and then waits', async () => {
      const account = await add()
      for (let tried = 1; tried <= 10; tried++)
        expect(await signIn(account.name, 'not this one at all', `198.51.100.${tried}`)).toMatchObject({
          error: { kind: 'wrong' },
        })
      const waits = await signIn(account.name, good, '198.51.100.99')
      expect(waits).toMatchObject({ ok: false, error: { kind: 'wait' } })
      const seconds = !waits.ok && waits.error.kind === 'wait' ? waits.error.seconds : 0
      expect(seconds).toBeGreaterThan(14 * 60)
      expect(seconds).toBeLessThanOrEqual(15 * 60)
      const before = (await logOf('refused')).filter(({ what }) => what === 'too-many-tries').length
      await signIn(account.name, good, '198.51.100.99')
      expect((await logOf('refused')).filter(({ what }) => what === 'too-many-tries')).toHaveLength(before)
    })
  })

  describe('what somebody may', () => {
    const asked = { addOwner: () => addOwner({ name: `The back room ${newId()}`, kind: 'shop' }) }

    it('is asked at every write: a looker changes nothing, whichever way they came', async () => {
      const looker = askingAs({ accountId: newId(), role: 'looker' })
      const before = await open().prisma.owner.count()
      expect(() => whileAsking(looker, asked.addOwner)).toThrow(NotAllowed)
      const readToken = askingAs({ accountId: newId(), role: 'keeper', by: { kind: 'token', tokenId: 't', scope: 'read' } })
      expect(() => whileAsking(readToken, asked.addOwner)).toThrow(NotAllowed)
      expect(() => whileAsking({ who: { kind: 'nobody' }, address: '', onceKey: null }, asked.addOwner)).toThrow(NotAllowed)
      expect(await open().prisma.owner.count()).toBe(before)
    })

    it('is a keeper’s for accounts, but for one’s own password', async () => {
      const account = await add('looker')
      const other = await add('keeper')
      const own = askingAs({ accountId: account.id, role: 'looker' })
      await expect(whileAsking(own, () => add())).rejects.toThrow(NotAllowed)
      expect(() => whileAsking(own, () => closeAccount(other))).toThrow(NotAllowed)
      expect(() => whileAsking(own, () => changeAccount({ ...account, role: 'keeper' }))).toThrow(NotAllowed)
      await expect(whileAsking(own, () => setPassword({ id: other.id, password: good }))).rejects.toThrow(NotAllowed)
      granted(await whileAsking(own, () => setPassword({ id: account.id, password: `${good} mine` })))
    })

    it('writes each change of an account in the log, in the same transaction, and its name in the journal', async () => {
      const helper = askingAs({ accountId: newId(), name: 'Ines Coldwell', role: 'helper' })
      const owner = granted(await whileAsking(helper, asked.addOwner))
      const [entry] = await open().prisma.auditEntry.findMany({ where: { kind: 'change' }, orderBy: { id: 'desc' }, take: 1 })
      expect(entry).toMatchObject({ accountName: 'Ines Coldwell', address: '192.168.1.20', what: 'written' })
      expect(JSON.parse(entry?.detailJson ?? '{}')).toEqual({ nouns: { owner: 1 } })
      const changes = await open().prisma.change.findMany({ where: { revision: entry?.revision ?? -1 } })
      expect(changes.map(({ noun, nounId }) => [noun, nounId])).toEqual([['owner', owner.id]])

      const before = await open().prisma.auditEntry.count({ where: { kind: 'change' } })
      await whileAsking(helper, () => write(async () => ({ ok: false, error: { kind: 'no' } })))
      await expect(
        whileAsking(helper, () =>
          write(async () => {
            throw new Error('the world broke')
          }),
        ),
      ).rejects.toThrow('the world broke')
      // The program’s own doings and those of whoever sits there without accounts are in the journal alone.
      await asked.addOwner()
      expect(await open().prisma.auditEntry.count({ where: { kind: 'change' } })).toBe(before)
    })

    it('names whoever signed in on every line of the journal that names nobody', async () => {
      const chart = { id: newId(), title: 'The one with the rooks' }
      const owner = granted(await asked.addOwner())
      await open().prisma.chart.create({
        data: { ...chart, titleKey: chart.title.toLowerCase(), ownerId: owner.id, kind: 'leaflet' },
      })
      const helper = askingAs({ accountId: newId(), name: 'Ines Coldwell' })
      const line = { kind: 'move', wholeDelta: 0, partDeltaStrandTenths: 0, chartId: chart.id }
      await whileAsking(helper, () =>
        write(async ({ tx, at, revision }) => {
          await tx.movement.create({ data: { id: newId(), at, revision, ...line } })
          await tx.movement.createMany({ data: [{ id: newId(), at, revision, ...line, who: 'Hanne Drewitt' }] })
          return { ok: true, value: null }
        }),
      )
      const lines = await open().prisma.movement.findMany({ where: { chartId: chart.id }, orderBy: { id: 'asc' } })
      expect(lines.map((each) => each.who)).toEqual(['Ines Coldwell', 'Hanne Drewitt'])
    })
  })

  it('knows who asks through all that is waited for, each apart from the others', async () => {
    const names = ['Ines Coldwell', 'Joss Tarrow', 'Hanne Drewitt']
    const told = await Promise.all(
      names.map((name) =>
        whileAsking(askingAs({ accountId: newId(), name }), async () => {
          await open().prisma.owner.count()
          await new Promise((resolve) => setTimeout(resolve, 5))
          const asks = who()
          return asks.kind === 'account' ? asks.name : asks.kind
        }),
      ),
    )
    expect(told).toEqual(names)
    expect(asking()).toBeNull()
  })
})
