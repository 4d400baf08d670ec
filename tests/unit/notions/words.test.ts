import { describe, expect, it } from 'vitest'
import type { NotionMovement } from '#lib/db/notion/queries'
import { describeMovement } from '../../../app/notions/words'

const tag = (label: string) => ({ id: label, label, name: null, kind: 'drawer' as const })
const told = (movement: Partial<NotionMovement>) =>
  describeMovement({
    ...{ id: 'm1', at: new Date(0), kind: 'correct', wholeDelta: 0, isOffList: false, from: null, to: null },
    ...{ projectTitle: null, reason: null, ...movement },
  })

describe('what happened to a notion, in words', () => {
  it.each<[Partial<NotionMovement>, string]>([
    [{ kind: 'receive', wholeDelta: 6, to: tag('N1') }, '6 came in, in N1'],
    [{ kind: 'use', wholeDelta: -2, from: tag('N1') }, '2 used up'],
    [{ kind: 'move', from: tag('N1'), to: tag('N2') }, 'moved from N1 to N2'],
    [{ kind: 'split', wholeDelta: -3, from: tag('N1'), to: tag('Bag K-07') }, '3 of them taken to Bag K-07'],
    [{ kind: 'take', wholeDelta: 3, from: tag('N1'), to: tag('Bag K-07') }, '3 taken from N1 to Bag K-07'],
    [{ kind: 'take', from: tag('N1'), to: tag('Bag K-07') }, 'taken from N1 to Bag K-07'],
    [{ kind: 'return', from: tag('Bag K-07'), to: tag('N1') }, 'put back from Bag K-07 to N1'],
    [{ kind: 'merge', wholeDelta: 3 }, '3 put back with them'],
    [{ wholeDelta: -1, reason: 'counted 12, 13 on record' }, '1 fewer than on record'],
    [{ reason: 'counted 12, 12 on record' }, 'counted'],
    [{ reason: 'size 24 to 26' }, 'its card was changed'],
    [{ wholeDelta: -4, isOffList: true }, 'taken off the list, 4 of it'],
    [{ kind: 'undo', wholeDelta: 4, to: tag('N1') }, 'put back on the list to N1'],
  ])('%j is told as %s', (movement, words) => {
    expect(told(movement)).toBe(words)
  })
})
