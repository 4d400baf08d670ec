import { describe, expect, it, vi } from 'vitest'
import { Jobs, secondsRun } from '#lib/db/job/jobs'
import { granted } from '#tests/database/granted'

type Told = { report: (progress: number) => void; end: (answer: string) => void; fail: (error: Error) => void }

/** Jobs that do as they are told from outside; stopped, they answer how far they were. */
function someJobs(kind: string, most = 2) {
  const waiting: Told[] = []
  const jobs = new Jobs<string, number, string>(kind, {
    ...{ most, isTakenUpAgain: true, first: () => 0 },
    run: (_, { signal, report }) =>
      new Promise((resolve, reject) => {
        let last = 0
        const told = waiting.shift() as Told
        told.report = (progress) => {
          last = progress
          report(progress)
        }
        told.end = resolve
        told.fail = reject
        signal.addEventListener('abort', () => resolve(`stopped at ${last}`))
      }),
  })
  const begin = async (about = 'the autumn class') => {
    const told: Told = { report: () => {}, end: () => {}, fail: () => {} }
    waiting.push(told)
    return { started: await jobs.start(about), told }
  }
  return {
    jobs,
    begin,
    begun: async (about?: string) => {
      const { started, told } = await begin(about)
      return { id: granted(started).id, told }
    },
  }
}

describe('jobs in the background', () => {
  it('can be looked at while they run, and keep what they were asked', async () => {
    const { jobs, begun } = someJobs('looked at')
    const { id, told } = await begun()
    expect(await jobs.find(id)).toMatchObject({
      about: 'the autumn class',
      state: { kind: 'running' },
      progress: 0,
      endedAt: null,
    })
    told.report(2)
    expect((await jobs.find(id))?.progress).toBe(2)
    told.end('all of it')
    await jobs.ended(id)
    const endedAt = expect.any(Date)
    expect(await jobs.find(id)).toMatchObject({ state: { kind: 'ended', answer: 'all of it' }, progress: 2, endedAt })
    expect(await jobs.find('nobody knows')).toBeNull()
  })

  it('end with what they have when stopped; one that has ended is left as it is', async () => {
    const { jobs, begun } = someJobs('stopped')
    const { id, told } = await begun()
    told.report(3)
    await jobs.stop(id)
    expect((await jobs.find(id))?.state).toEqual({ kind: 'ended', answer: 'stopped at 3' })
    await jobs.stop(id)
    expect((await jobs.find(id))?.state).toEqual({ kind: 'ended', answer: 'stopped at 3' })
  })

  it('fail with a number that stands in the log, and keep what they told last', async () => {
    const logged = vi.spyOn(console, 'error').mockImplementation(() => {})
    const { jobs, begun } = someJobs('a thing that breaks')
    const { id, told } = await begun()
    told.report(2)
    told.fail(new Error('no memory left'))
    await jobs.ended(id)
    const job = await jobs.find(id)
    expect(job).toMatchObject({ state: { kind: 'failed' }, progress: 2 })
    const errorId = job?.state.kind === 'failed' ? job.state.errorId : ''
    expect(logged.mock.calls).toEqual([[`a thing that breaks failed (${errorId})`, expect.any(Error)]])
    logged.mockRestore()
  })

  it('are a few of a kind at once, and a place is free again when one ends', async () => {
    const { jobs, begin, begun } = someJobs('few', 2)
    const first = await begun()
    await begun()
    expect((await begin()).started).toEqual({ ok: false, error: { kind: 'too-many-at-once', most: 2 } })
    expect((await someJobs('another kind').begin()).started.ok).toBe(true)
    first.told.end('done')
    await jobs.ended(first.id)
    expect((await begin()).started.ok).toBe(true)
  })

  it('are known to every registry of their kind, and to no other', async () => {
    const { id } = await someJobs('shared').begun('the spring class')
    expect((await someJobs('shared').jobs.find(id))?.about).toBe('the spring class')
    expect(await someJobs('not shared').jobs.find(id)).toBeNull()
  })

  it('are forgotten after a while, the oldest first, but never one that runs', async () => {
    const { jobs, begun } = someJobs('many')
    const stays = await begun()
    const ids: string[] = []
    for (let at = 0; at < 60; at++) {
      const { id, told } = await begun()
      ids.push(id)
      told.end(`number ${at}`)
      await jobs.ended(id)
    }
    expect(await jobs.find(ids[0] as string)).toBeNull()
    expect((await jobs.find(ids.at(-1) as string))?.state).toEqual({ kind: 'ended', answer: 'number 59' })
    expect((await jobs.find(stays.id))?.state).toEqual({ kind: 'running' })
  })

  it('are forgotten once a day has gone by, and say how long they ran', async () => {
    vi.useFakeTimers({ toFake: ['Date'] })
    const { jobs, begun } = someJobs('old')
    const { id, told } = await begun()
    const job = async () => (await jobs.find(id)) as NonNullable<Awaited<ReturnType<typeof jobs.find>>>
    vi.setSystemTime(Date.now() + 5_000)
    expect(secondsRun(await job())).toBe(5)
    told.end('done')
    await jobs.ended(id)
    vi.setSystemTime(Date.now() + 24 * 60 * 60_000)
    expect(secondsRun(await job())).toBe(5)
    await begun()
    expect(await jobs.find(id)).toBeNull()
    vi.useRealTimers()
  })
})
