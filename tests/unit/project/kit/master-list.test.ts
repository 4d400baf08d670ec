import { expect, it } from 'vitest'
import { linesOfKit, type MasterLine } from '#lib/project/kit/master-list'

const line = (key: string, isInSpares: boolean): MasterLine => ({
  ...{ kind: 'chart', key, title: key, isFile: false, perKit: { count: 1 } },
  ...{ needsOneLot: false, isInSpares, placeIds: [] },
})

it('a spare has no chart until it is sold', () => {
  const list = { lines: [line('thread:a', true), line('chart', false)] }
  const keysOf = (kit: { isSpare: boolean; isSold: boolean }) => linesOfKit(list, kit).map(({ key }) => key)
  expect(keysOf({ isSpare: false, isSold: false })).toEqual(['thread:a', 'chart'])
  expect(keysOf({ isSpare: true, isSold: false })).toEqual(['thread:a'])
  expect(keysOf({ isSpare: true, isSold: true })).toEqual(['thread:a', 'chart'])
})
