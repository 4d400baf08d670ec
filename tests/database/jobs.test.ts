import { type ChildProcess, fork } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { afterEach, expect, it, vi } from 'vitest'
import type { Who } from '#lib/access/who'
import { whileAsking } from '#lib/db/access/asking'
import { queuedJobs } from '#lib/db/job/queued-jobs'
import { newId } from '#lib/db/new-id'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { carefulCounts, counts } from './job-hand'

/** Processes of their own take some seconds to start, on a busy machine many. */
const timeout = 120_000

describeOnEachEngine('background jobs', ({ name, open }) => {
  const isShared = name === 'PostgreSQL'
  const children: ChildProcess[] = []

  /** A second process that takes up what waits; this one only asks. */
  async function begin(): Promise<ChildProcess> {
    const child = fork(path.join(import.meta.dirname, 'job-hand.ts'), {
      execArgv: ['--import', 'tsx', '--conditions=react-server'],
      env: { ...process.env, DATABASE_URL: open().url, LARDER_JOBS: '' },
    })
    children.push(child)
    await once(child, 'message')
    return child
  }
  async function end(child: ChildProcess, how: 'leave' | 'SIGKILL'): Promise<void> {
    const ended = once(child, 'exit')
    if (how === 'leave') child.send('leave')
    else child.kill(how)
    await ended
  }
  afterEach(async () => {
    vi.restoreAllMocks()
    delete process.env.LARDER_JOBS
    for (const child of children.splice(0)) if (child.exitCode === null && child.signalCode === null) await end(child, 'SIGKILL')
  })
  const onlyAsk = () => {
    process.env.LARDER_JOBS = 'off'
  }
  const until = async (isSo: () => Promise<boolean>) => {
    while (!(await isSo())) await pause(50)
  }
  /** As if its process had last been heard a minute ago. */
  const fallSilent = (id: string) =>
    open().prisma.$executeRawUnsafe(`UPDATE "BackgroundJob" SET "heardAt" = "heardAt" - interval '1 minute' WHERE "id" = '${id}'`)

  /** It goes on in that process, and ends there when it is stopped. */
  async function isTakenUpBy(child: ChildProcess, id: string): Promise<void> {
    const { prisma } = open()
    await until(
      async () => (await prisma.backgroundJob.findUnique({ where: { id } }))?.process?.includes(` ${child.pid} `) ?? false,
    )
    await counts.stop(id)
    expect((await counts.find(id))?.state).toMatchObject({ kind: 'ended', answer: { said: 'stopped', pid: child.pid } })
  }

  it('are done here where nobody else does them, as whoever began them', async () => {
    const nell: Who = {
      ...{ kind: 'account', accountId: newId(), name: 'Nell Oxtoby', role: 'helper', ownerIds: [newId()] },
      by: { kind: 'session', sessionId: newId() },
    }
    const job = granted(await whileAsking({ who: nell, address: '', onceKey: null }, () => counts.start({ to: 2 })))
    expect(job).toMatchObject({ about: { to: 2 }, state: { kind: 'running' }, who: nell, endedAt: null })
    await counts.ended(job.id)
    const done = await counts.find(job.id)
    const answer = { said: 'counted to 2', pid: process.pid, asWho: 'Nell Oxtoby' }
    expect(done).toMatchObject({ state: { kind: 'ended', answer }, progress: { at: 1 }, who: nell, endedAt: expect.any(Date) })
    expect(await counts.find(newId())).toBeNull()
    expect((await counts.latest())?.id).toBe(job.id)
    expect(await counts.amend(job.id, (said) => ({ ...said, pid: 7 }))).toMatchObject({ pid: 7 })
    expect((await counts.find(job.id))?.state).toMatchObject({ answer: { pid: 7, said: 'counted to 2' } })
    if (isShared)
      expect(await open().prisma.backgroundJob.findUnique({ where: { id: job.id } })).toMatchObject({ accountId: nell.accountId })
  })

  it('are a few at once, however many ask together', async () => {
    const asked = await Promise.all(Array.from({ length: 5 }, () => counts.start({ to: 200 })))
    const begun = asked.filter(({ ok }) => ok)
    expect(begun).toHaveLength(3)
    expect(asked.find(({ ok }) => !ok)).toEqual({ ok: false, error: { kind: 'too-many-at-once', most: 3 } })
    await Promise.all(begun.map((one) => counts.stop(granted(one).id)))
    for (const one of begun) expect((await counts.find(granted(one).id))?.state).toMatchObject({ answer: { said: 'stopped' } })
  })

  if (!isShared) return

  it('for one key are begun once, though every process asks', async () => {
    const asked = await Promise.all(Array.from({ length: 4 }, () => counts.startOnce({ to: 1 }, '2026-11-30T03')))
    expect(asked.filter((job) => job !== null)).toHaveLength(1)
    await counts.ended(asked.find((job) => job !== null)?.id as string)
    expect(await counts.startOnce({ to: 1 }, '2026-11-30T03')).toBeNull()
  })

  it('are begun here, done there, and stopped from here', { timeout }, async () => {
    await queuedJobs(open().url).close()
    delete (globalThis as { larderQueuedJobs?: unknown }).larderQueuedJobs
    onlyAsk()
    const there = await begin()
    const { id } = granted(await counts.start({ to: 2_000 }))
    await until(async () => ((await counts.find(id))?.progress.at ?? 0) > 0)
    const asked = performance.now()
    await counts.stop(id)
    expect(performance.now() - asked).toBeLessThan(10_000)
    expect((await counts.find(id))?.state).toEqual({
      kind: 'ended',
      answer: { said: 'stopped', pid: there.pid, asWho: 'program' },
    })
  })

  it('whose process is killed are taken up by another, and where that could harm are told as failed', { timeout }, async () => {
    onlyAsk()
    const first = await begin()
    const again = granted(await counts.start({ to: 2_000 }))
    const never = granted(await carefulCounts.start({ to: 2_000 }))
    for (const [jobs, { id }] of [
      [counts, again],
      [carefulCounts, never],
    ] as const)
      await until(async () => ((await jobs.find(id))?.progress.at ?? 0) > 0)
    await end(first, 'SIGKILL')
    const logged = vi.spyOn(console, 'error').mockImplementation(() => {})
    vi.spyOn(console, 'warn').mockImplementation(() => {})
    await fallSilent(again.id)
    await fallSilent(never.id)
    await queuedJobs(open().url).takeFromLost()
    expect((await carefulCounts.find(never.id))?.state).toEqual({ kind: 'failed', errorId: expect.any(String) })
    expect(logged).toHaveBeenCalledOnce()
    expect((await counts.find(again.id))?.state).toEqual({ kind: 'running' })
    await isTakenUpBy(await begin(), again.id)
  })

  it('are handed on by a process that ends in good order', { timeout }, async () => {
    onlyAsk()
    const both = await Promise.all([begin(), begin()])
    const { id } = granted(await counts.start({ to: 2_000 }))
    await until(async () => ((await counts.find(id))?.progress.at ?? 0) > 0)
    const { process: holder } = await open().prisma.backgroundJob.findUniqueOrThrow({ where: { id } })
    const [first, second] = holder?.includes(` ${both[0].pid} `) ? both : both.toReversed()
    await end(first as ChildProcess, 'leave')
    await isTakenUpBy(second as ChildProcess, id)
  })
})
