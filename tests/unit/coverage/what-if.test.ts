import { describe, expect, it } from 'vitest'
import type { DesignState } from '#lib/coverage/engine'
import { byOutcome, outcomeOf } from '#lib/coverage/what-if-outcome'
import { mostSupposed, parseWhatIfQuery, whatIfHref } from '#lib/coverage/what-if-query'

const aState = (over: Partial<DesignState> = {}): DesignState => ({
  ...{ status: 'short', isStitchable: false, isStitchableWithSwaps: false, buyPutUps: 2 },
  ...over,
})
const ready = aState({ status: 'enough', isStitchable: true, isStitchableWithSwaps: true, buyPutUps: 0 })
const swapped = aState({ status: 'swap', isStitchableWithSwaps: true, buyPutUps: 0 })
const outcome = (before: DesignState, after: DesignState) => outcomeOf({ designId: 'd', before, after })

describe('what becomes of a design', () => {
  it('is opened once every thread is free, from swaps too', () => {
    expect(outcome(aState(), ready)).toBe('opened')
    expect(outcome(swapped, ready)).toBe('opened')
    expect(outcome(aState(), swapped)).toBe('openedWithSwaps')
  })

  it('comes nearer when less is wanting', () => {
    expect(outcome(aState(), aState({ buyPutUps: 1 }))).toBe('nearer')
    const away = aState({ status: 'elsewhere', buyPutUps: 0 })
    expect(outcome(away, aState({ status: 'unknown', buyPutUps: 0 }))).toBe('nearer')
  })

  it('wants more where what was bought is of a lot that does not match', () => {
    expect(outcome(aState({ buyPutUps: 1 }), aState({ status: 'lots', buyPutUps: 2 }))).toBe('worse')
    expect(outcome(ready, aState())).toBe('worse')
  })

  it('stands otherwise in a part only when as much is to be bought, or it could be stitched before', () => {
    expect(outcome(aState(), aState())).toBe('inPart')
    expect(outcome(aState({ status: 'none' }), aState())).toBe('inPart')
    expect(outcome({ ...ready, status: 'mixed' }, ready)).toBe('inPart')
  })

  it('is listed with the fewest left to buy first, whatever the order they come in', () => {
    const near = { designId: 'a', before: aState({ buyPutUps: 5 }), after: aState({ buyPutUps: 1 }) }
    const far = { designId: 'b', before: aState({ buyPutUps: 9 }), after: aState({ buyPutUps: 4 }) }
    const same = { ...near, designId: 'c' }
    expect(byOutcome([far, same, near]).nearer).toEqual([near, same, far])
    expect(byOutcome([near, far, same])).toEqual(byOutcome([same, far, near]))
  })
})

describe('a question in an address', () => {
  it('is read back as it was written', () => {
    const asked = {
      buy: [
        { threadId: 't1', putUps: 2, lot: '18' },
        { threadId: 't2', putUps: 1, lot: null },
      ],
      unpack: ['p1', 'p2'],
    }
    const url = new URL(whatIfHref({ ...asked, show: 'nearer', page: 3 }), 'http://127.0.0.1')
    const params: Record<string, string[]> = {}
    for (const name of url.searchParams.keys()) params[name] = url.searchParams.getAll(name)
    expect(parseWhatIfQuery(params)).toEqual({ ...asked, q: '', show: 'nearer', page: 3, wrong: [] })
    expect(whatIfHref({ buy: [], unpack: [] })).toBe('/what-if')
  })

  it('leaves out a thread whose number was emptied or made nought, and marks one that is none', () => {
    expect(parseWhatIfQuery({ 'buy.t1': '', 'buy.t2': '0', 'buy.t3': 'two', 'lot.t3': '7', 'buy.': '1' })).toMatchObject({
      buy: [],
      wrong: [{ threadId: 't3', text: 'two', lot: '7' }],
    })
    expect(parseWhatIfQuery({ 'buy.t1': '-3', 'buy.t2': '10001', page: '-2', show: 'everything' })).toMatchObject({
      buy: [],
      wrong: [{ threadId: 't1' }, { threadId: 't2' }],
      show: null,
      page: 1,
    })
  })

  it('supposes no more than a question bears', () => {
    const params = Object.fromEntries(Array.from({ length: 150 }, (_, i) => [`buy.t${i}`, '1']))
    expect(parseWhatIfQuery({ ...params, unpack: Array.from({ length: 150 }, (_, i) => `p${i}`) })).toMatchObject({
      buy: { length: mostSupposed },
      unpack: { length: mostSupposed },
    })
  })
})
