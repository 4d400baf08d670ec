import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { keepCarryOut, sendCarryOut, type WaitingCarryOut, waitingCarryOuts } from '../../../app/_ticks/carry-outs'
import { addTicks, waitingTicks } from '../../../app/_ticks/tick-queue'

const walk = { kind: 'walk', id: 'w1' } as const
const tickedAt = '2026-11-30T10:00:00.000Z'
const carry: WaitingCarryOut = {
  ...{ lineId: 'key-1', status: 'carry-out', tickedAt, by: 'Ines Coldwell' },
  ...{ lineIds: ['a', 'b'], bags: [{ projectId: 'j1', label: 'K-07' }] },
}

type Asked = { path: string; key: string | null; body: Record<string, unknown> }
let asked: Asked[] = []
let answers: ((asked: Asked) => Response)[] = []
const json =
  (body: object, status = 200) =>
  () =>
    Response.json(body, { status })
const ticksTaken = json({ revision: 2, version: 1, lines: [] })

beforeEach(() => {
  const kept = new Map<string, string>()
  const localStorage = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => kept.set(key, text),
    removeItem: (key: string) => kept.delete(key),
  }
  vi.stubGlobal('window', Object.assign(new EventTarget(), { localStorage }))
  asked = []
  vi.stubGlobal('fetch', async (path: string, { headers, body }: { headers: Record<string, string>; body: string }) => {
    const one = { path, key: headers['idempotency-key'] ?? null, body: JSON.parse(body) }
    asked.push(one)
    const answer = answers.shift()
    if (!answer) throw new TypeError('no connection')
    return answer(one)
  })
  addTicks(walk, [{ lineId: 'a', status: 'done', tickedAt, by: 'Ines Coldwell' }])
  keepCarryOut('w1', carry)
})

afterEach(() => vi.unstubAllGlobals())

describe('what was said to be in the bags without a connection', () => {
  it('is written down once its ticks are sent, with the key it was said with', async () => {
    answers = [ticksTaken, json({ carried: 2, left: [], kittedProjectIds: [], isDone: false })]
    expect(await sendCarryOut('w1')).toEqual({ kind: 'done' })
    expect(asked.map(({ path, key }) => [path, key])).toEqual([
      ['/api/v1/walks/w1/ticks', null],
      ['/api/v1/walks/w1/carry-out', 'key-1'],
    ])
    expect(asked[1]?.body).toEqual({ lineIds: ['a', 'b'], bags: [{ projectId: 'j1', label: 'K-07' }], by: 'Ines Coldwell' })
    expect([...waitingTicks(walk), ...waitingCarryOuts('w1')]).toEqual([])
  })

  it('waits while its ticks cannot be sent, and while it cannot itself', async () => {
    answers = []
    expect(await sendCarryOut('w1')).toEqual({ kind: 'no-connection' })
    expect(asked).toHaveLength(1)
    answers = [ticksTaken, json({}, 503)]
    expect(await sendCarryOut('w1')).toEqual({ kind: 'no-connection' })
    expect(waitingCarryOuts('w1')).toEqual([carry])
  })

  it('stays to be read where the record had something against it, and is sent no more', async () => {
    answers = [ticksTaken, json({ detail: 'This list was ended.' }, 409)]
    expect(await sendCarryOut('w1')).toEqual({ kind: 'settled' })
    expect(waitingCarryOuts('w1')).toEqual([{ ...carry, refusal: 'This list was ended.' }])
    const times = asked.length
    await sendCarryOut('w1')
    expect(asked).toHaveLength(times)
  })

  it('names the lines that were left as they were', async () => {
    const left = [{ lineId: 'b', why: 'promised' }]
    answers = [ticksTaken, json({ carried: 1, left, kittedProjectIds: [], isDone: false })]
    await sendCarryOut('w1')
    expect(waitingCarryOuts('w1')).toEqual([{ ...carry, left }])
  })
})
