import { describe, expect, it } from 'vitest'
import { NotAllowed } from '#lib/access/not-allowed'
import { whileAsking } from '#lib/db/access/asking'
import { addAuditEntry } from '#lib/db/access/audit'
import { findChange, findJournalled, listAudit, readAudit } from '#lib/db/access/list-audit'
import { listPeople } from '#lib/db/access/list-people'
import { newId } from '#lib/db/new-id'
import { writeTo } from '#lib/db/write-gate'
import { ok } from '#lib/result'
import { askingAs } from './asking-as'
import { describeOnEachEngine } from './engines'
import { addSmallWorld } from './small-world'

const day = (text: string) => new Date(`${text}T00:00:00Z`)

describeOnEachEngine('the log of who did what', ({ open }) => {
  const corrie = { id: newId(), name: 'Corrie Dunn' }
  const ines = { id: newId(), name: 'Ines Coldwell' }

  /** So many lines a day, noon and on, by turns Corrie's, Ines's and nobody's. */
  async function fill() {
    const doers = [corrie, ines, { id: null, name: 'admin' }]
    await writeTo(open(), async ({ tx }) => {
      for (const [at, date] of ['2026-11-28', '2026-11-29'].entries())
        for (let turn = 0; turn < 6; turn++)
          await addAuditEntry(tx, {
            kind: 'sign-in',
            what: 'password',
            at: new Date(`${date}T12:0${turn}:00Z`),
            account: doers[turn % 3],
            detail: { day: at, turn },
          })
      return ok(null)
    })
  }

  it('is read by page, by person and by day, the latest first', async () => {
    await fill()
    const all = await listAudit({}, { offset: 0, limit: 5 })
    expect(all.total).toBe(12)
    expect(all.lines.map(({ detail }) => [detail.day, detail.turn])).toEqual([
      [1, 5],
      [1, 4],
      [1, 3],
      [1, 2],
      [1, 1],
    ])
    expect((await listAudit({}, { offset: 10, limit: 5 })).lines).toHaveLength(2)
    const hers = await listAudit({ accountId: corrie.id }, { offset: 0, limit: 50 })
    expect(hers.total).toBe(4)
    expect(new Set(hers.lines.map(({ accountName }) => accountName))).toEqual(new Set(['Corrie Dunn']))
    const nobodys = await listAudit({ accountId: null }, { offset: 0, limit: 50 })
    expect(nobodys.lines.map(({ accountName }) => accountName)).toEqual(Array(4).fill('admin'))
    const onDay = { fromAt: day('2026-11-28'), untilAt: day('2026-11-29') }
    expect((await listAudit(onDay, { offset: 0, limit: 50 })).lines.every(({ detail }) => detail.day === 0)).toBe(true)
    expect((await listAudit({ ...onDay, accountId: ines.id }, { offset: 0, limit: 50 })).total).toBe(2)
  })

  it('is read whole, lot by lot, with the same filter', async () => {
    const lines = []
    for await (const lot of readAudit({ accountId: ines.id })) lines.push(...lot)
    expect(lines).toEqual((await listAudit({ accountId: ines.id }, { offset: 0, limit: 50 })).lines)
    // Many of one moment, so that a lot ends within it.
    const at = day('2020-01-01')
    const refusal = { kind: 'refused', accountName: 'many', address: '', what: 'wrong-password', at }
    await open().prisma.auditEntry.createMany({ data: Array.from({ length: 11 }, () => ({ ...refusal, id: newId() })) })
    const ids = new Set<string>()
    const lots: number[] = []
    for await (const lot of readAudit({ untilAt: day('2021-01-01') }, 4)) {
      lots.push(lot.length)
      for (const { id } of lot) ids.add(id)
    }
    expect(lots).toEqual([4, 4, 3])
    expect(ids.size).toBe(11)
  })

  it('tells what a change wrote into the journal, and what it touched', async () => {
    await addSmallWorld(open())
    const movement = await open().prisma.movement.findFirstOrThrow({ orderBy: { id: 'asc' } })
    const { revision } = movement
    await writeTo(open(), async ({ tx, at }) => {
      await addAuditEntry(tx, { kind: 'change', what: 'written', at, revision, account: corrie })
      return ok(null)
    })
    const lines = await open().prisma.movement.count({ where: { revision } })
    const change = await findChange(revision)
    expect(change).toMatchObject({ revision, line: { accountName: 'Corrie Dunn', kind: 'change' }, hasMore: false })
    expect(change?.journal).toHaveLength(lines)
    expect(change?.touched.length).toBeGreaterThan(0)
    expect(await findJournalled([revision, 999_999])).toEqual(new Set([revision]))
    expect(await findJournalled([])).toEqual(new Set())
    expect(await findChange(999_999)).toBeNull()
  })

  describe('is for keepers', () => {
    it.each(['helper', 'looker'] as const)('not for a %s', async (role) => {
      const asks = askingAs({ accountId: newId(), role })
      const reads: (() => Promise<unknown>)[] = [
        () => listAudit({}, { offset: 0, limit: 1 }),
        async () => readAudit({}),
        () => findChange(1),
        () => listPeople(new Date()),
      ]
      for (const read of reads) await expect(whileAsking(asks, read)).rejects.toThrow(NotAllowed)
    })

    it('and a keeper’s token reaches no further than it says', async () => {
      const by = { kind: 'token', tokenId: 't', scope: 'change' } as const
      const asks = askingAs({ accountId: newId(), role: 'keeper', by })
      await expect(whileAsking(asks, () => listAudit({}, { offset: 0, limit: 1 }))).rejects.toThrow(NotAllowed)
      const own = askingAs({ accountId: newId(), role: 'keeper' })
      expect((await whileAsking(own, () => listAudit({}, { offset: 0, limit: 1 }))).lines).toHaveLength(1)
    })
  })
})

describeOnEachEngine('people', ({ open }) => {
  it('are listed with how and where they sign in, those closed last', async () => {
    const { prisma } = open()
    const now = new Date()
    const ago = (hours: number) => new Date(now.getTime() - hours * 3_600_000)
    const account = (name: string, more: object = {}) => ({
      id: newId(),
      name,
      nameKey: name.toLowerCase(),
      role: 'helper',
      createdAt: now,
      ...more,
    })
    const [corrie, ines, gone] = [account('Corrie'), account('Ines'), account('Aldith', { closedAt: now })]
    await prisma.account.createMany({ data: [corrie, ines, gone] })
    const session = (accountId: string, usedAt: Date) => ({
      id: newId(),
      accountId,
      secretHash: newId(),
      rotatedAt: now,
      createdAt: now,
      usedAt,
      expiresAt: new Date(now.getTime() + 3_600_000),
      device: '',
      address: '',
    })
    // Left alone for longer than a week, a device is signed out though its row is still there.
    await prisma.session.createMany({
      data: [session(corrie.id, ago(5)), session(corrie.id, ago(2)), session(corrie.id, ago(24 * 8))],
    })
    await prisma.apiToken.create({
      data: { id: newId(), accountId: ines.id, label: 'Till', secretHash: 'x', scope: 'read', createdAt: now },
    })
    const people = await listPeople(now)
    expect(people.map(({ name }) => name)).toEqual(['Corrie', 'Ines', 'Aldith'])
    expect(people[0]).toMatchObject({ deviceCount: 2, usedAt: ago(2), passkeyCount: 0, tokenCount: 0, hasPassword: false })
    expect(people[1]).toMatchObject({ deviceCount: 0, usedAt: null, tokenCount: 1 })
    expect(people[2]?.closedAt).toEqual(now)
  })
})
