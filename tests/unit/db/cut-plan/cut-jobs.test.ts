import { afterEach, describe, expect, it, vi } from 'vitest'
import type { CutPlan } from '#lib/cloth/cut-plan'
import { type CutJob, cutJobs, mostCutJobs } from '#lib/db/cut-plan/cut-jobs'
import type { CutRun, runCutPlan } from '#lib/solver/run-cut-plan'
import { granted } from '#tests/database/granted'
import { a8 } from '#tests/unit/solver/cut-requests'

const aPlan = (value: number): CutPlan => ({
  ...{ layouts: [], leftOut: [], value, cutCount: 0, wasteUm2: 0, largestOffcutsUm2: 0 },
  ...{ valueBound: 9, bound: 9, isProved: false },
})

/** A search that does as it is told from outside. */
function aSearch() {
  const told: { better: (plan: CutPlan) => void; end: (run: CutRun) => void; fail: (error: Error) => void } = {
    ...{ better: () => {}, end: () => {}, fail: () => {} },
  }
  const run: typeof runCutPlan = (_request, { onProgress, signal }) =>
    new Promise((resolve, reject) => {
      let best: CutPlan | null = null
      told.better = (plan) => {
        best = plan
        onProgress?.(plan)
      }
      told.end = resolve
      told.fail = reject
      signal?.addEventListener('abort', () => (best ? resolve({ plan: best, ending: 'stopped' }) : reject(signal.reason)))
    })
  return { told, run }
}

const searches: (typeof runCutPlan)[] = []
/** Each is searched for by what was laid ready first. */
const { startCutJob, findCutJob, stopCutJob } = cutJobs('plan of cuts, tried', (...asked) =>
  (searches.shift() as typeof runCutPlan)(...asked),
)
const asked = { about: 'the autumn class', request: a8(), timeLimitSeconds: 20 }

const running: string[] = []
async function started(run: typeof runCutPlan): Promise<CutJob<string>> {
  searches.push(run)
  const job = granted(await startCutJob(asked))
  running.push(job.id)
  return job
}
afterEach(async () => {
  for (const id of running.splice(0)) await stopCutJob(id)
})
const settled = () => new Promise((resolve) => setTimeout(resolve, 0))

describe('jobs that search for a plan of cuts', () => {
  it('can be looked at while they run, and keep what they were asked', async () => {
    const { told, run } = aSearch()
    const { id } = await started(run)
    expect(await findCutJob(id)).toMatchObject({
      about: 'the autumn class',
      state: { kind: 'running' },
      plan: null,
      endedAt: null,
    })
    told.better(aPlan(2))
    expect((await findCutJob(id))?.plan?.value).toBe(2)
    told.end({ plan: aPlan(3), ending: 'searched' })
    await settled()
    expect(await findCutJob(id)).toMatchObject({ state: { kind: 'searched' }, plan: { value: 3 }, endedAt: expect.any(Date) })
    expect(await findCutJob('nobody knows')).toBeNull()
  })

  it('stop with the best they have, or with none', async () => {
    const { told, run } = aSearch()
    const first = await started(run)
    told.better(aPlan(2))
    await stopCutJob(first.id)
    expect(await findCutJob(first.id)).toMatchObject({ state: { kind: 'stopped' }, plan: { value: 2 } })
    const second = await started(aSearch().run)
    await stopCutJob(second.id)
    expect(await findCutJob(second.id)).toMatchObject({ state: { kind: 'stopped' }, plan: null })
  })

  it('that fail keep the best so far', async () => {
    const logged = vi.spyOn(console, 'error').mockImplementation(() => {})
    const { told, run } = aSearch()
    const { id } = await started(run)
    told.better(aPlan(2))
    told.fail(new Error('no memory left'))
    await settled()
    expect(await findCutJob(id)).toMatchObject({ state: { kind: 'failed', errorId: expect.any(String) }, plan: { value: 2 } })
    expect(logged).toHaveBeenCalledOnce()
    logged.mockRestore()
  })

  it('are a few at once', async () => {
    const begun = Array.from({ length: mostCutJobs }, aSearch)
    for (const { run } of begun) await started(run)
    expect(await startCutJob({ ...asked, about: 'one more' })).toEqual({
      ok: false,
      error: { kind: 'too-many-at-once', most: mostCutJobs },
    })
    begun[0]?.told.end({ plan: aPlan(1), ending: 'out-of-time' })
    await settled()
    expect((await started(aSearch().run)).state).toEqual({ kind: 'running' })
  })
})
