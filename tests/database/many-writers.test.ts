import { once } from 'node:events'
import path from 'node:path'
import { beforeAll, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { startOwnProcess } from './own-process'
import type { Done, Job } from './stock-writer'
import { addCharted, addLarkholm, aPlace, goods, hanneDrewitt, skein, theShop } from './things'

const processes = 4

describeOnEachEngine('many writers at once', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), thread: newId(), design: newId(), drawer: newId(), bag: newId() }

  beforeAll(async () => {
    const { prisma } = open()
    const lineId = newId()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({
      data: [aPlace(ids.drawer, 'T2.1', 'drawer'), aPlace(ids.bag, 'K-07', 'bag')],
    })
    const makerId = await addLarkholm(open())
    const line = { id: lineId, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein }
    await prisma.threadLine.create({ data: line })
    await prisma.thread.create({ data: { id: ids.thread, lineId, code: '0311' } })
    await addCharted(open(), { ownerId: ids.shop, title: 'Seven Lanterns', designId: ids.design })
  })

  async function receive(wholePutUps: number) {
    const received = { threadId: ids.thread, ownerId: ids.shop, lot: newId(), wholePutUps, homePlaceId: ids.drawer }
    return granted(await receiveThread(goods(received))).batchId
  }

  async function addProjects(count: number) {
    const projects = Array.from({ length: count }, () => ({ id: newId(), designId: ids.design, ownerId: ids.shop }))
    await open().prisma.project.createMany({ data: projects })
    return projects.map(({ id }) => id)
  }

  /** Deal the jobs to several processes, let all begin at once, and gather how each came out, in the order of the jobs. */
  async function letAllWork(jobs: readonly Job[]): Promise<Done[]> {
    const file = path.join(import.meta.dirname, 'stock-writer.ts')
    const start = async () => {
      const child = await startOwnProcess(file, { DATABASE_URL: open().url })
      await once(child, 'message')
      return child
    }
    const children = await Promise.all(Array.from({ length: processes }, start))
    const hands = children.map((_, at) => jobs.filter((_, index) => index % processes === at))
    const answers = await Promise.all(
      children.map(async (child, at) => {
        const answered = once(child, 'message')
        child.send(hands[at] as Job[])
        const [done] = (await answered) as [Done[]]
        await once(child, 'exit')
        return done
      }),
    )
    return jobs.map((_, index) => answers[index % processes]?.[Math.floor(index / processes)] as Done)
  }

  /** What of a batch and all that was split off it is held and promised, at home, out and passed on. */
  async function rowsFrom(batchId: string) {
    const { prisma } = open()
    const rows = await prisma.batch.findMany({
      where: { OR: [{ id: batchId }, { parentId: batchId }] },
      include: { promises: true, movements: true },
    })
    for (const row of rows) {
      const sum = (of: 'wholeDelta' | 'partDeltaStrandTenths') =>
        row.movements.reduce((total, movement) => total + movement[of], 0)
      expect([row.wholePutUps, row.partStrandTenths]).toEqual([sum('wholeDelta'), sum('partDeltaStrandTenths')])
      const promised = row.promises.reduce((total, { strandTenths }) => total + strandTenths, 0)
      expect(promised).toBeLessThanOrEqual(row.wholePutUps * row.putUpStrandTenths + row.partStrandTenths)
    }
    return rows
  }

  it('in four processes, promise, use, take and pass on: never more than is there, and no step is lost', async () => {
    const batchId = await receive(12)
    const projectIds = await addProjects(20)
    const jobs: Job[] = projectIds.flatMap((projectId, at): Job[] => [
      { verb: 'promise', batchId, projectId, strandTenths: skein },
      at % 3 === 0
        ? { verb: 'use', batchId, strandTenths: skein / 2 }
        : at % 3 === 1
          ? { verb: 'take', batchId, wholePutUps: 1, toPlaceId: ids.bag }
          : { verb: 'transfer', batchId, wholePutUps: 1, toOwnerId: ids.hanne },
    ])
    const done = await letAllWork(jobs)
    const kinds = new Set(done.flatMap((one) => (one.ok ? [] : [one.kind])))
    expect([...kinds].filter((kind) => kind !== 'not-enough-free' && kind !== 'not-enough')).toEqual([])
    expect(done.filter(({ ok }) => !ok).length).toBeGreaterThan(0)

    const granted = jobs.filter((_, index) => done[index]?.ok)
    const count = (verb: Job['verb']) => granted.filter((job) => job.verb === verb).length
    const rows = await rowsFrom(batchId)
    const held = rows.reduce((sum, row) => sum + row.wholePutUps * row.putUpStrandTenths + row.partStrandTenths, 0)
    expect(held).toBe(12 * skein - (count('use') * skein) / 2)
    const promises = rows.flatMap((row) => row.promises)
    expect(promises).toHaveLength(count('promise'))
    expect(rows.filter((row) => row.parentId === batchId && row.ownerId === ids.hanne)).toHaveLength(count('transfer'))
    expect(rows.filter((row) => row.currentPlaceId === ids.bag)).toHaveLength(count('take'))
    // Nothing was left lying that somebody who was refused could have had.
    const free = 12 * skein - (count('use') * skein) / 2 - (count('take') + count('transfer') + count('promise')) * skein
    expect(free).toBeLessThan(skein)
    expect(rows.find((row) => row.id === batchId)?.version).toBe(granted.length)
  })

  it('who saw what is no longer so is refused, all but one of forty', async () => {
    const batchId = await receive(40)
    const projectIds = await addProjects(40)
    const { version } = await open().prisma.batch.findUniqueOrThrow({ where: { id: batchId } })
    const jobs = projectIds.map((projectId): Job => ({ verb: 'promise', batchId, version, projectId, strandTenths: skein }))
    const done = await letAllWork(jobs)
    expect(done.filter(({ ok }) => ok)).toHaveLength(1)
    expect(new Set(done.flatMap((one) => (one.ok ? [] : [one.kind])))).toEqual(new Set(['changed-meanwhile']))
    expect((await rowsFrom(batchId))[0]?.promises).toHaveLength(1)
  })
})
