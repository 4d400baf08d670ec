import { describe, expect, it } from 'vitest'
import {
  addressPairs,
  clothByHand,
  readAddress,
  swapsHref,
  withMerge,
  withPick,
} from '../../../app/designs/[designId]/swaps/choices'

const read = (query: string) => {
  const said = new URLSearchParams(query)
  return readAddress(
    Object.fromEntries([...said.keys()].map((name) => [name, said.getAll(name).length > 1 ? said.getAll(name) : said.get(name)])),
  )
}

describe('the address of the swaps screen', () => {
  it('keeps every choice there and back', () => {
    const address = withMerge(withPick(withPick(read('list=k1&cloth=%23e8dcc0&same=1'), 't1', 's1'), 't2', null), 't3', 't4')
    const again = read(swapsHref('d1', address).split('?')[1] ?? '')
    expect(again).toEqual(address)
    expect(again.picks).toEqual(
      new Map([
        ['t1', 's1'],
        ['t2', null],
      ]),
    )
    expect(again.merges).toEqual([['t3', 't4']])
  })

  it('takes a choice back, and replaces one', () => {
    const chosen = read('pick=t1~s1')
    expect(withPick(chosen, 't1', 's2').picks).toEqual(new Map([['t1', 's2']]))
    expect(addressPairs(withPick(chosen, 't1', undefined))).toEqual([])
  })

  it('passes over what it cannot read', () => {
    expect(read('pick=t1&merge=a~b~c&list=').picks.size).toBe(0)
    expect(read('merge=a~b~c').merges).toEqual([])
    expect(clothByHand(read('cloth=cream'))).toBeNull()
    expect(clothByHand(read('cloth=e8dcc0'))?.L).toBeCloseTo(88.2, 0)
  })
})
