import { describe, expect, it } from 'vitest'
import { formerHomes, type HomeEvidence } from '#lib/stock/former-homes'

const line = (revision: number, kind: HomeEvidence['kind'], from: string | null, to: string | null, thingId = 'b1') => ({
  revision,
  kind,
  at: new Date(Date.UTC(2026, 0, revision)),
  thingId,
  fromPlaceId: from,
  toPlaceId: to,
})
const homesBefore = (lines: HomeEvidence[], homeOf: Record<string, string | null>) =>
  formerHomes({
    lines,
    homeOf: new Map(Object.entries(homeOf)),
    isPassage: (placeId) => placeId.startsWith('K-'),
  }).map(({ placeId, until, thingIds }) => [placeId, until.getUTCDate(), thingIds])

describe('formerHomes', () => {
  it('names the drawer a thread came into and was moved from, and until when', () => {
    expect(homesBefore([line(1, 'receive', null, 'T2.1'), line(5, 'move', 'T2.1', 'T3.1')], { b1: 'T3.1' })).toEqual([
      ['T2.1', 5, ['b1']],
    ])
  })

  it('names none when it was only taken out for a while, to a bag or elsewhere', () => {
    const there = [line(1, 'receive', null, 'T2.1'), line(2, 'take', 'T2.1', 'K-07'), line(3, 'return', 'K-07', 'T2.1')]
    const shown = [...there, line(4, 'move', 'T2.1', 'Window'), line(6, 'return', 'Window', 'T2.1')]
    expect(homesBefore(there, { b1: 'T2.1' })).toEqual([])
    expect(homesBefore(shown, { b1: 'T2.1' })).toEqual([])
  })

  it('takes no bag for a home because something was moved out of it', () => {
    const lines = [line(1, 'receive', null, 'T2.1'), line(2, 'take', 'T2.1', 'K-07'), line(3, 'move', 'K-07', 'T3.1')]
    expect(homesBefore(lines, { b1: 'T3.1' })).toEqual([['T2.1', 2, ['b1']]])
  })

  it('takes no bag for a home because a thing was put on record there, but one it was put back into', () => {
    const lines = [line(1, 'receive', null, 'K-07'), line(2, 'return', 'K-07', 'T2.1')]
    expect(homesBefore(lines, { b1: 'T2.1' })).toEqual([])
    const kept = [line(1, 'return', 'T9', 'K-02'), line(2, 'move', 'K-02', 'T2.1')]
    expect(homesBefore(kept, { b1: 'T2.1' })).toEqual([['K-02', 2, ['b1']]])
  })

  it('puts the drawer left last first, and counts every thing that lived in it', () => {
    const lines = [
      line(1, 'receive', null, 'T1.1'),
      line(2, 'move', 'T1.1', 'T2.1'),
      line(3, 'receive', null, 'T2.1', 'b2'),
      line(4, 'move', 'T2.1', 'T3.1'),
      line(5, 'move', 'T2.1', 'T3.1', 'b2'),
    ]
    expect(homesBefore(lines.reverse(), { b1: 'T3.1', b2: 'T3.1' })).toEqual([
      ['T2.1', 5, ['b1', 'b2']],
      ['T1.1', 2, ['b1']],
    ])
  })

  it('passes over what is no longer there', () => {
    expect(homesBefore([line(1, 'receive', null, 'T2.1'), line(2, 'move', 'T2.1', 'T3.1')], {})).toEqual([])
  })
})
