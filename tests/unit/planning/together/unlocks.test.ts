import { expect, it } from 'vitest'
import type { ChoiceWorld } from '#lib/planning/together/choice-world'
import { limitLadder } from '#lib/planning/together/limit-ladder'
import { kitPairs } from '#lib/planning/together/shared-threads'
import { unlocksByThread } from '#lib/planning/together/unlocks'

const design = (id: string, ...lists: Record<string, number>[]) => ({
  ...{ id, value: 1, copies: 1, pin: 'may' as const, ways: {} },
  lists: lists.map((needs, list) => ({
    listId: `${id}${list}`,
    needs: Object.entries(needs).map(([threadId, strandTenths]) => ({ threadId, strandTenths })),
  })),
})
const thread = (freeStrandTenths: number, lotsMatter = false) => ({
  ...{ lotsMatter, freeStrandTenths, putUpStrandTenths: 10, priceMinor: 115 },
  lotsStrandTenths: freeStrandTenths > 0 ? [freeStrandTenths] : [],
})

it('what one thread unlocks: three designs with one put-up of 0742, one more with two, none that lacks another thread', () => {
  const world: ChoiceWorld = {
    ...{ pieces: null, gapUm: 0, buying: { kind: 'nothing' } },
    threads: new Map([
      ['0742', thread(5)],
      ['0311', thread(8)],
      ['tarn blue', thread(9, true)],
    ]),
    designs: [
      design('a', { '0742': 6 }),
      design('b', { '0742': 15, '0311': 8 }),
      design('c', { '0311': 9 }, { '0742': 12 }),
      design('d', { '0742': 16 }),
      design('e', { '0742': 6, '0311': 9 }),
      design('ready', { '0311': 8 }),
      // Of one lot: the 9 held do not count, 12 are two put-ups.
      design('f', { 'tarn blue': 12 }),
    ],
  }
  expect(unlocksByThread(world)).toEqual([
    {
      ...{ threadId: '0742', priceMinor: 115, isOneLot: false },
      steps: [
        { putUps: 1, designIds: ['a', 'b', 'c'] },
        { putUps: 2, designIds: ['d'] },
      ],
    },
    { threadId: '0311', priceMinor: 115, isOneLot: false, steps: [{ putUps: 1, designIds: ['c'] }] },
    { threadId: 'tarn blue', priceMinor: 115, isOneLot: true, steps: [{ putUps: 2, designIds: ['f'] }] },
  ])
})

it('two to kit at once: that of which the other has every colour comes first, though another pair shares more', () => {
  const pairs = kitPairs([
    { designId: 'kettle', threadIds: ['1', '2', '3', '4', '5'] },
    { designId: 'barge', threadIds: ['1', '2'] },
    { designId: 'rooks', threadIds: ['3', '4', '5', '6'] },
    { designId: 'wrens', threadIds: ['9'] },
  ])
  // Barge lies whole in kettle: 2 + 5 threads are 5 pulls. Kettle and rooks share 3: 5 + 4 are 6.
  expect(pairs).toEqual([
    { designIds: ['barge', 'kettle'], sharedThreadIds: ['1', '2'], pulls: 5, pullsSaved: 2, isCovered: true },
    { designIds: ['rooks', 'kettle'], sharedThreadIds: ['3', '4', '5'], pulls: 6, pullsSaved: 3, isCovered: false },
  ])
})

it('limits are looked at around the one asked', () => {
  expect(limitLadder({ kind: 'nothing' }).map((limit) => 'most' in limit && limit.most)).toEqual([0, 1, 2, 3, 4, 5])
  expect(limitLadder({ kind: 'put-ups', most: 4 }).map((limit) => 'most' in limit && limit.most)).toEqual([0, 1, 2, 3, 4, 5, 6])
  expect(limitLadder({ kind: 'budget', mostMinor: 1_000 }).map((limit) => 'mostMinor' in limit && limit.mostMinor)).toEqual([
    0, 250, 500, 750, 1_000, 1_250, 1_500,
  ])
})
