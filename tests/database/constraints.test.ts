import { beforeAll, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { describeOnEachEngine } from './engines'

describeOnEachEngine('what the database itself refuses', ({ open }) => {
  const owner = { id: newId(), name: 'Hanne Drewitt', nameKey: 'hanne drewitt' }
  const maker = { id: newId(), name: 'Larkholm', nameKey: 'larkholm' }
  const line = { id: newId(), makerId: maker.id, name: '', nameKey: '', strands: 6, putUpStrandTenths: 480_000 }
  const thread = { id: newId(), lineId: line.id, code: '0311' }
  const batch = { threadId: thread.id, ownerId: owner.id, putUpStrandTenths: 480_000, wholePutUps: 1 }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: owner })
    await prisma.maker.create({ data: maker })
    await prisma.threadLine.create({ data: line })
    await prisma.thread.create({ data: thread })
  })

  it('refuses stock below nothing', async () => {
    await expect(open().prisma.batch.create({ data: { ...batch, id: newId(), wholePutUps: -1 } })).rejects.toThrow()
    await expect(
      open().prisma.batch.create({ data: { ...batch, id: newId(), partStrandTenths: -5, partCertainty: 'guess' } }),
    ).rejects.toThrow()
  })

  it('refuses a part length without saying how it is known, and a known one of nothing', async () => {
    await expect(open().prisma.batch.create({ data: { ...batch, id: newId(), partStrandTenths: 5 } })).rejects.toThrow()
    await expect(open().prisma.batch.create({ data: { ...batch, id: newId(), partCertainty: 'measured' } })).rejects.toThrow()
  })

  it('refuses a second thread of the same line and code, but keeps 0311 and 311 apart', async () => {
    await expect(open().prisma.thread.create({ data: { id: newId(), lineId: line.id, code: '0311' } })).rejects.toThrow()
    await expect(open().prisma.thread.create({ data: { id: newId(), lineId: line.id, code: '311' } })).resolves.toMatchObject({
      code: '311',
    })
  })

  it('refuses stock of a thread that does not exist', async () => {
    await expect(open().prisma.batch.create({ data: { ...batch, id: newId(), threadId: 'nobody' } })).rejects.toThrow()
  })

  it('never lets a movement be changed or deleted', async () => {
    const held = await open().prisma.batch.create({ data: { ...batch, id: newId() } })
    const id = newId()
    await open().prisma.movement.create({
      data: { id, revision: 1, at: new Date(), kind: 'receive', batchId: held.id, wholeDelta: 1 },
    })
    await expect(open().prisma.movement.update({ where: { id }, data: { wholeDelta: 2 } })).rejects.toThrow()
    await expect(open().prisma.movement.delete({ where: { id } })).rejects.toThrow()
    expect(await open().prisma.movement.count({ where: { id, wholeDelta: 1 } })).toBe(1)
  })

  it('refuses a movement of nothing or of two things at once', async () => {
    await expect(
      open().prisma.movement.create({ data: { id: newId(), revision: 1, at: new Date(), kind: 'receive' } }),
    ).rejects.toThrow()
  })
})
