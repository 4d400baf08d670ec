import { describe, expect, it } from 'vitest'
import { insist, settleFigures, type WaitingFigure } from '../../../app/_ticks/count-figures'

const figure = (lineId: string, counted: number): WaitingFigure => ({
  ...{ lineId, counted, status: 'counted', by: 'Ines Coldwell', saw: null },
  tickedAt: '2026-11-30T10:00:00.000Z',
})
const meanwhile = '2026-11-30T10:04:00.000Z'

describe('figures of a count that waited on a device', () => {
  const sent = [figure('a', 8), figure('b', 3), figure('c', 1)]
  const answer = {
    entered: [{ lineId: 'a', countedAt: '2026-11-30T10:00:00.000Z' }],
    conflicts: [{ lineId: 'b', counted: 4, countedAt: meanwhile, countedBy: 'Joss Tarrow' }],
    unknownLineIds: ['c'],
  }

  it('are done with where they are on the record; the others stay, with what there is to choose from', () => {
    const { done, conflicting } = settleFigures(sent, answer)
    expect(done.map(({ lineId }) => lineId)).toEqual(['a'])
    expect(conflicting).toEqual([
      { ...figure('b', 3), conflict: { kind: 'counted', counted: 4, at: meanwhile, by: 'Joss Tarrow' } },
      { ...figure('c', 1), conflict: { kind: 'gone' } },
    ])
  })

  it('lose none: each that was sent is either done or kept', () => {
    const { done, conflicting } = settleFigures(sent, answer)
    expect([...done, ...conflicting].map(({ lineId, counted }) => `${lineId} ${counted}`).sort()).toEqual(['a 8', 'b 3', 'c 1'])
  })

  it('are sent again as having seen the other’s, once somebody chose their own', () => {
    const [other] = settleFigures(sent, answer).conflicting
    const now = '2026-11-30T10:10:00.000Z'
    expect(insist(other as WaitingFigure, now)).toEqual({ ...figure('b', 3), saw: meanwhile, tickedAt: now })
  })
})
