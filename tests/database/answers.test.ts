import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { loadNeeds } from '#lib/db/answers/load-needs'
import { writeNeedFile } from '#lib/db/answers/need-file'
import { readDesigns } from '#lib/db/answers/read-designs'
import { readLineOfThread, readLines } from '#lib/db/answers/read-threads'
import { readRevision } from '#lib/db/answers/read-world'
import { type ReadRows, readSnapshot } from '#lib/db/read-snapshot'
import { getSettings } from '#lib/db/settings/settings'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { recordUse } from '#lib/db/stock/record-use'
import { write } from '#lib/db/write'
import { ok } from '#lib/result'
import { seedCollection } from '#seed/seed'
import { describeOnEachEngine } from './engines'

describeOnEachEngine('answers kept in memory', ({ open }) => {
  let folder = ''
  const dataBefore = process.env.LARDER_DATA

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-answers-'))
    process.env.LARDER_DATA = folder
    await seedCollection(open(), { size: 'home', seed: 3, report: () => {} })
  }, 60_000)
  afterAll(() => {
    if (dataBefore === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = dataBefore
    rmSync(folder, { recursive: true, force: true })
  })

  /** As a process that has just started would have them. */
  const answersAnew = () => {
    delete (globalThis as { larderAnswers?: unknown }).larderAnswers
    return getAnswers()
  }

  const everyAnswer = (answers: Answers) => {
    const ownerIds = [...answers.world.owners.keys()]
    const engine = answers.coverage(ownerIds)
    return [...answers.world.designs.keys()].sort().map((designId) => engine.answerFor(designId))
  }

  const inSnapshot = <T>(read: (rows: ReadRows) => Promise<T>) => readSnapshot(open(), read)

  const context = async (rows: ReadRows) => ({
    designs: await readDesigns(rows, null),
    lines: await readLines(rows),
    lineOfThread: await readLineOfThread(rows),
    settings: await getSettings(),
  })

  const load = () =>
    inSnapshot(async (rows) => {
      const revision = await readRevision(rows)
      return { revision, ...(await loadNeeds(rows, open().url, revision, await context(rows))) }
    })

  const needsOf = ({ index }: { index: Answers['needs'] }) =>
    [...index.threadIds].sort().map((threadId) => index.usesOf(threadId).sort((a, b) => (a.listId < b.listId ? -1 : 1)))

  const fileName = () => path.join(folder, 'answers', readdirSync(path.join(folder, 'answers'))[0] as string)

  it('say after each write, caught up from its change rows, what they say made anew', async () => {
    const batches = await open().prisma.batch.findMany({
      where: { goneAt: null, wholePutUps: { gt: 1 } },
      orderBy: { id: 'asc' },
      take: 6,
    })
    await getAnswers()
    for (const [turn, batch] of batches.entries()) {
      const { id: batchId, version } = batch
      const written =
        turn % 2 === 0
          ? await recordUse({ batchId, version, strandTenths: 'all', projectId: null, reason: 'sold', who: null })
          : await correctBatch({
              ...{ batchId, version, wholePutUps: 9, partStrandTenths: 0, partCertainty: 'none' },
              ...{ reason: 'counted', who: null },
            })
      expect(written.ok).toBe(true)
      const caughtUp = await getAnswers()
      const said = everyAnswer(caughtUp)
      expect(said).toEqual(everyAnswer(await answersAnew()))
    }
    const lists = await open().prisma.threadList.findMany({ orderBy: { id: 'asc' }, take: 40 })
    for (const [turn, list] of lists.entries()) {
      await write<null, never>(async ({ tx, touch }) => {
        if (turn % 4 === 0) await tx.project.deleteMany({ where: { threadListId: list.id } })
        if (turn % 4 === 0) await tx.threadList.delete({ where: { id: list.id } })
        else await tx.threadList.update({ where: { id: list.id }, data: { isIncomplete: turn % 2 === 0 } })
        touch('list', list.id)
        touch('design', list.designId)
        return ok(null)
      })
    }
    const said = everyAnswer(await getAnswers())
    expect(said).toEqual(everyAnswer(await answersAnew()))
  })

  it('start from the snapshot of an earlier run, brought up to date', async () => {
    const first = await load()
    expect(first.keptRevision).toBeNull()
    await inSnapshot(async (rows) => writeNeedFile(rows, open().url, await getSettings(), first))
    const list = await open().prisma.keyLineThread.findFirstOrThrow({
      select: { id: true, keyLine: { select: { threadList: { select: { id: true, designId: true } } } } },
    })
    await write<null, never>(async ({ tx, touch }) => {
      await tx.keyLineThread.update({ where: { id: list.id }, data: { strands: 4 } })
      touch('list', list.keyLine.threadList.id)
      touch('design', list.keyLine.threadList.designId)
      return ok(null)
    })
    const second = await load()
    expect(second.keptRevision).toBe(first.revision)
    expect(second.revision).toBe(first.revision + 1)
    const caughtUp = needsOf(second)
    rmSync(fileName())
    const anew = await load()
    expect(anew.keptRevision).toBeNull()
    expect(caughtUp).toEqual(needsOf(anew))
  })

  it('pass over a snapshot that is damaged, of other settings, or of a collection with another past', async () => {
    const now = await load()
    const keep = () => inSnapshot(async (rows) => writeNeedFile(rows, open().url, await getSettings(), now))
    await keep()
    expect((await load()).keptRevision).toBe(now.revision)

    const whole = readFileSync(fileName())
    writeFileSync(fileName(), whole.subarray(0, whole.length / 2))
    expect((await load()).keptRevision).toBeNull()
    const flipped = Buffer.from(whole)
    flipped[whole.length - 100] = (flipped[whole.length - 100] as number) ^ 1
    writeFileSync(fileName(), flipped)
    const damaged = await load()
    expect(damaged.keptRevision).toBeNull()
    expect(needsOf(damaged)).toEqual(needsOf(now))

    await keep()
    const newest = await open().prisma.change.findFirstOrThrow({ orderBy: [{ revision: 'desc' }, { id: 'desc' }] })
    await open().prisma.change.update({ where: { id: newest.id }, data: { id: `${newest.id}-restored` } })
    expect((await load()).keptRevision).toBeNull()
    await open().prisma.change.update({ where: { id: `${newest.id}-restored` }, data: { id: newest.id } })
    expect((await load()).keptRevision).toBe(now.revision)

    await write<null, never>(async ({ tx, touch }) => {
      await tx.setting.create({ data: { key: 'allowance', valueJson: '1.8' } })
      touch('setting', 'allowance')
      return ok(null)
    })
    expect((await load()).keptRevision).toBeNull()
  })
})
