import { expect, it } from 'vitest'
import { bulkInsert, timestamp } from '#lib/db/bulk-insert'
import { newId } from '#lib/db/new-id'
import { writeTo } from '#lib/db/write-gate'
import { describeOnEachEngine } from './engines'

describeOnEachEngine('the write gate', ({ name, open, openAnother }) => {
  const revisionOf = async () => (await open().prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })).number

  const addOwner = (name: string) => ({ id: newId(), name, nameKey: name.toLowerCase() })

  it('raises the revision by one and names what changed', async () => {
    const before = await revisionOf()
    const owner = addOwner('Nell')
    const result = await writeTo(open(), async ({ tx, touch }) => {
      await tx.owner.create({ data: owner })
      touch('owner', owner.id)
      touch('owner', owner.id)
      return { ok: true, value: 'written' }
    })
    expect(result).toEqual({ ok: true, value: 'written' })
    expect(await revisionOf()).toBe(before + 1)
    const changes = await open().prisma.change.findMany({ where: { revision: before + 1 } })
    expect(changes.map(({ noun, nounId }) => [noun, nounId])).toEqual([['owner', owner.id]])
  })

  it('leaves no trace of a write that was refused or thrown', async () => {
    const before = await revisionOf()
    const refused = await writeTo(open(), async ({ tx }) => {
      await tx.owner.create({ data: addOwner('Refused') })
      return { ok: false, error: { kind: 'no' } as const }
    })
    expect(refused).toEqual({ ok: false, error: { kind: 'no' } })
    await expect(
      writeTo(open(), async ({ tx }) => {
        await tx.owner.create({ data: addOwner('Thrown') })
        throw new Error('the world broke')
      }),
    ).rejects.toThrow('the world broke')
    expect(await revisionOf()).toBe(before)
    expect(await open().prisma.owner.count({ where: { name: { in: ['Refused', 'Thrown'] } } })).toBe(0)
  })

  it('lets many writers in two clients read and write one row without losing a single step', async () => {
    const id = newId()
    await open().prisma.owner.create({ data: { id, name: 'Counter', nameKey: 'counter' } })
    const other = openAnother()
    const before = await revisionOf()
    const writers = Array.from({ length: 60 }, (_, at) =>
      writeTo(at % 2 === 0 ? open() : other, async ({ tx }) => {
        const owner = await tx.owner.findUniqueOrThrow({ where: { id } })
        const claimed = await tx.owner.updateMany({
          where: { id, version: owner.version },
          data: { version: { increment: 1 }, name: `Counter ${owner.version + 1}` },
        })
        return claimed.count === 1 ? { ok: true, value: null } : { ok: false, error: 'somebody got there first' }
      }),
    )
    const results = await Promise.all(writers)
    expect(results.every((result) => result.ok)).toBe(true)
    const owner = await open().prisma.owner.findUniqueOrThrow({ where: { id } })
    expect(owner).toMatchObject({ version: 60, name: 'Counter 60' })
    expect(await revisionOf()).toBe(before + 60)
  })

  // Serialization failure and deadlock, as a distributed database tells them with the very last statement.
  if (name === 'PostgreSQL')
    it.each(['40001', '40P01'])('begins anew when it is refused at its commit with %s', async (state) => {
      const { prisma } = open()
      const named = `refused_${state.toLowerCase()}`
      // A sequence goes on, whatever is taken back: the first two commits are refused, the third is not.
      await prisma.$executeRawUnsafe(`CREATE SEQUENCE ${named}`)
      await prisma.$executeRawUnsafe(`CREATE FUNCTION ${named}() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
      IF nextval('${named}') <= 2 THEN RAISE EXCEPTION 'restart transaction' USING ERRCODE = '${state}'; END IF; RETURN NULL; END $$`)
      await prisma.$executeRawUnsafe(`CREATE CONSTRAINT TRIGGER ${named} AFTER INSERT ON "Owner" DEFERRABLE INITIALLY DEFERRED
      FOR EACH ROW EXECUTE FUNCTION ${named}()`)
      const before = await revisionOf()
      let times = 0
      const owner = addOwner(`Late ${state}`)
      const result = await writeTo(open(), async ({ tx }) => {
        times += 1
        await tx.owner.create({ data: owner })
        return { ok: true, value: null }
      })
      await prisma.$executeRawUnsafe(`DROP FUNCTION ${named} CASCADE`)
      expect([result.ok, times, await revisionOf()]).toEqual([true, 3, before + 1])
      expect(await prisma.owner.count({ where: { id: owner.id } })).toBe(1)
    })

  if (name === 'PostgreSQL')
    it.each(['40001', '40P01'])('begins anew when a statement of its own is refused with %s', async (state) => {
      let times = 0
      const result = await writeTo(open(), async ({ tx }) => {
        times += 1
        if (times < 3)
          await tx.$executeRawUnsafe(`DO $$ BEGIN RAISE EXCEPTION 'restart transaction' USING ERRCODE = '${state}'; END $$`)
        return { ok: true, value: null }
      })
      expect([result.ok, times]).toEqual([true, 3])
    })

  it('inserts in bulk what Prisma then reads as its own: nulls, booleans, text codes, moments', async () => {
    const at = new Date('2026-09-07T08:09:10.123Z')
    const maker = { id: newId(), name: 'Larkholm', nameKey: 'larkholm' }
    const line = { id: newId(), makerId: maker.id, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: 480_000 }
    const threads = ['0017', '17', '3-12', 'Écru "½"'].map((code) => ({ id: newId(), lineId: line.id, code, name: null }))
    await writeTo(open(), async ({ tx, engine }) => {
      await bulkInsert(tx, engine, 'Maker', [{ ...maker, version: 0 }])
      await bulkInsert(tx, engine, 'ThreadLine', [
        { ...line, putUpWord: 'skein', dyeing: 'solid', lotsMatter: true, working: 'rows', version: 0 },
      ])
      await bulkInsert(
        tx,
        engine,
        'Thread',
        threads.map((thread) => ({ ...thread, version: 0 })),
      )
      await bulkInsert(
        tx,
        engine,
        'ImportBatch',
        [{ id: 'bulk', kind: 'places', fileName: 'a', fileHash: 'b', at: timestamp(at), status: 'done', mappingJson: '{}' }].map(
          (row) => ({ ...row, addedCount: 0, changedCount: 0, sameCount: 0, refusedCount: 0, version: 0 }),
        ),
      )
      return { ok: true, value: null }
    })
    const read = await open().prisma.thread.findMany({ where: { lineId: line.id }, orderBy: { id: 'asc' } })
    expect(read.map((thread) => thread.code)).toEqual(['0017', '17', '3-12', 'Écru "½"'])
    expect(read.every((thread) => thread.name === null && thread.labL === null)).toBe(true)
    expect((await open().prisma.threadLine.findUniqueOrThrow({ where: { id: line.id } })).lotsMatter).toBe(true)
    expect((await open().prisma.importBatch.findUniqueOrThrow({ where: { id: 'bulk' } })).at).toEqual(at)
    await open().prisma.importBatch.create({
      data: { id: 'own', kind: 'places', fileName: 'a', fileHash: 'b', at, mappingJson: '{}' },
    })
    const alike = await open().prisma.importBatch.findMany({ where: { at }, select: { id: true }, orderBy: { id: 'asc' } })
    expect(alike.map(({ id }) => id)).toEqual(['bulk', 'own'])
  })
})
