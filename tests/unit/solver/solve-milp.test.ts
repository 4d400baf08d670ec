import { describe, expect, it } from 'vitest'
import { solveMilp } from '#lib/solver/solve-milp'

/** A market split: equalities over 0 and 1 that no method known solves quickly at this size (Cornuéjols and Dawande, 1999). */
function hardModel(rows: number, columns: number): string {
  let state = 20260907
  const random = () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648
    return state % 100
  }
  const names = Array.from({ length: columns }, (_, index) => `x${index}`)
  const lines = Array.from({ length: rows }, (_, row) => {
    const weights = names.map(random)
    const half = Math.floor(weights.reduce((sum, weight) => sum + weight, 0) / 2)
    return ` r${row}: ${names.map((name, index) => `${weights[index]} ${name}`).join(' + ')} + over${row} - under${row} = ${half}`
  })
  const slack = Array.from({ length: rows }, (_, row) => `over${row} + under${row}`).join(' + ')
  return `Minimize\n obj: ${slack}\nSubject To\n${lines.join('\n')}\nBinaries\n ${names.join(' ')}\nEnd\n`
}

describe('solving a mixed-integer program', () => {
  it('finds the optimum of a knapsack worked by hand', async () => {
    // Of weights 5, 4, 3 with values 10, 7, 5 and room for 7: the last two, worth 12.
    const answer = await solveMilp(
      'Maximize\n obj: 10 a + 7 b + 5 c\nSubject To\n room: 5 a + 4 b + 3 c <= 7\nBinaries\n a b c\nEnd\n',
      { timeLimitSeconds: 5 },
    )
    expect(answer).toMatchObject({ status: 'optimal', objective: 12 })
    expect(Object.fromEntries('columns' in answer ? answer.columns : [])).toEqual({ a: 0, b: 1, c: 1 })
  })

  it('tells what has no solution, and what has no end, from an answer', async () => {
    const limit = { timeLimitSeconds: 5 }
    const without = await solveMilp('Minimize\n obj: a\nSubject To\n low: a >= 2\n high: a <= 1\nEnd\n', limit)
    const endless = await solveMilp('Maximize\n obj: a\nSubject To\n low: a >= 2\nEnd\n', limit)
    expect(without.status).toBe('infeasible')
    expect(endless.status).toBe('unbounded')
  })

  it('refuses a text that is no model', async () => {
    await expect(solveMilp('quince', { timeLimitSeconds: 1 })).rejects.toThrow('solveMilp')
  })

  it('stops at its time limit with what it has, and leaves the main thread free meanwhile', async () => {
    const started = performance.now()
    let beats = 0
    const beat = setInterval(() => beats++, 5)
    const answer = await solveMilp(hardModel(6, 60), { timeLimitSeconds: 0.5 })
    clearInterval(beat)
    expect(['best-found', 'out-of-time']).toContain(answer.status)
    expect(performance.now() - started).toBeLessThan(5_000)
    // Were it solved on this thread, there would be a beat before and one after.
    expect(beats).toBeGreaterThan(10)
  })

  it('ends when told to, and the next model is solved as ever', async () => {
    const stop = new AbortController()
    const started = performance.now()
    const stopped = solveMilp(hardModel(6, 60), { timeLimitSeconds: 60, signal: stop.signal })
    setTimeout(() => stop.abort(new Error('no longer wanted')), 200)
    await expect(stopped).rejects.toThrow('no longer wanted')
    const next = await solveMilp('Minimize\n obj: a\nSubject To\n low: a >= 2\nEnd\n', { timeLimitSeconds: 5 })
    expect(next).toMatchObject({ status: 'optimal', objective: 2 })
    expect(performance.now() - started).toBeLessThan(10_000)
  })

  it('is not begun when it was called off while waiting', async () => {
    const stop = new AbortController()
    stop.abort(new Error('called off'))
    await expect(solveMilp('Minimize\n obj: a\nEnd\n', { timeLimitSeconds: 1, signal: stop.signal })).rejects.toThrow(
      'called off',
    )
  })
})
