import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CutPlan } from '#lib/cloth/cut-plan'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { runCutPlan } from '#lib/solver/run-cut-plan'
import { bundleWorkers } from '../../../prisma/bundle-workers.mjs'
import { a8, tooMany } from './cut-requests'

const folder = mkdtempSync(path.join(tmpdir(), 'larder-test-'))
beforeAll(() => bundleWorkers())
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A worker of these lines instead of the search. */
function aWorker(name: string, lines: string): string {
  const file = path.join(folder, `${name}.mjs`)
  writeFileSync(file, `import { parentPort, workerData } from 'node:worker_threads'\n${lines}\n`)
  return file
}
const aPlan = (value: number) =>
  `{ layouts: [], leftOut: [], value: ${value}, cutCount: 0, wasteUm2: 0, largestOffcutsUm2: 0, valueBound: 9, bound: 9, isProved: false }`

describe('searching for a plan of cuts in a thread of its own', () => {
  it('proves trade scenario A8, and ends at once with it', async () => {
    const seen: CutPlan[] = []
    const { plan, ending } = await runCutPlan(a8(), { timeLimitSeconds: 60, onProgress: (better) => seen.push(better) })
    expect(ending).toBe('searched')
    expect(plan).toMatchObject({ isProved: true, leftOut: [], value: 4, valueBound: 4 })
    // By hand: 18 × 7 inches are left.
    expect(plan.largestOffcutsUm2).toBe(18 * 7 * UM_PER_INCH ** 2)
    for (const better of seen) expect(better.value).toBeLessThanOrEqual(plan.value)
  })

  it('gives the same plan for the same request', async () => {
    const [one, other] = [await runCutPlan(a8(), { timeLimitSeconds: 60 }), await runCutPlan(a8(), { timeLimitSeconds: 60 })]
    expect(other).toEqual(one)
  })

  it('ends at its time limit with a plan and a bound, the main thread free meanwhile', async () => {
    let beats = 0
    const beat = setInterval(() => beats++, 5)
    const { plan, ending } = await runCutPlan(tooMany(), { timeLimitSeconds: 0.5 })
    clearInterval(beat)
    expect(ending).toBe('out-of-time')
    expect(plan.isProved).toBe(false)
    expect(plan.value).toBeGreaterThan(0)
    expect(plan.valueBound).toBeGreaterThanOrEqual(plan.value)
    expect(beats).toBeGreaterThan(10)
  })

  it('keeps the best so far when it is stopped', async () => {
    const stop = new AbortController()
    const seen: CutPlan[] = []
    const { plan, ending } = await runCutPlan(tooMany(), {
      timeLimitSeconds: 600,
      signal: stop.signal,
      onProgress: (better) => {
        seen.push(better)
        if (better.layouts.length > 0) stop.abort()
      },
    })
    expect(ending).toBe('stopped')
    expect(plan).toEqual(seen.at(-1))
  })

  it('is not begun when it was called off, and has nothing when stopped before its first plan', async () => {
    const off = new AbortController()
    off.abort(new Error('called off'))
    await expect(runCutPlan(a8(), { timeLimitSeconds: 1, signal: off.signal })).rejects.toThrow('called off')
    const stop = new AbortController()
    const workerFile = aWorker('silent', 'setInterval(() => {}, 1_000)')
    const stopped = runCutPlan(a8(), { timeLimitSeconds: 60, signal: stop.signal, workerFile })
    setTimeout(() => stop.abort(new Error('no longer wanted')), 100)
    await expect(stopped).rejects.toThrow('no longer wanted')
  })

  it('hands on each better plan as it comes', async () => {
    const lines = `for (const plan of [${aPlan(1)}, ${aPlan(2)}]) parentPort.postMessage({ kind: 'better', plan })
      parentPort.postMessage({ kind: 'ended', plan: ${aPlan(3)}, isOutOfTime: workerData.timeLimitSeconds === 7 })`
    const seen: number[] = []
    const run = await runCutPlan(a8(), {
      timeLimitSeconds: 7,
      workerFile: aWorker('three', lines),
      onProgress: ({ value }) => seen.push(value),
    })
    expect(seen).toEqual([1, 2])
    expect(run).toMatchObject({ ending: 'out-of-time', plan: { value: 3 } })
  })

  it.each([
    ['throws', 'throw new Error("a knot")', 'a knot'],
    ['ends without a word', 'process.exit(3)', 'ended with 3'],
    ['runs out of memory', 'const held = []; for (;;) held.push(new Array(1e6).fill(held.length))', 'memory'],
  ])('says so plainly when the worker %s', async (name, lines, words) => {
    const workerFile = aWorker(name.replaceAll(' ', '-'), lines)
    await expect(runCutPlan(a8(), { timeLimitSeconds: 60, workerFile })).rejects.toThrow(new RegExp(`runCutPlan: .*${words}`))
  })

  it('ends a worker that goes on past its time', async () => {
    const lines = `parentPort.postMessage({ kind: 'better', plan: ${aPlan(5)} }); for (;;);`
    const run = await runCutPlan(a8(), { timeLimitSeconds: 0.1, workerFile: aWorker('endless', lines) })
    expect(run).toMatchObject({ ending: 'out-of-time', plan: { value: 5 } })
  })

  it('refuses what is no request with the reason', async () => {
    const request = { ...a8(), leastOffcutUm: 0.5 }
    await expect(runCutPlan(request, { timeLimitSeconds: 5 })).rejects.toThrow('the worker broke')
  })
})
