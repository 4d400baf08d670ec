import { describe, expect, it } from 'vitest'
import { overruledBy } from '../../../app/_ticks/overruled'

const sent = { lineId: 'a', status: 'done', tickedAt: '2026-11-30T10:00:00.000Z', by: 'Ines Coldwell' }
const told = { lineId: 'a', status: 'not there', tickedAt: '2026-11-30T10:05:00.000Z', tickedBy: 'Nell Oxtoby' }

describe('ticks that another’s later ones stand over', () => {
  it('are told, with what stands and who says so', () => {
    expect(overruledBy([sent], [told])).toEqual([{ lineId: 'a', status: 'not there', by: 'Nell Oxtoby' }])
  })

  it('are none where one’s own is later, where both say the same, or where nothing is new', () => {
    expect(overruledBy([sent], [{ ...told, tickedAt: '2026-11-30T09:59:59.999Z' }])).toEqual([])
    expect(overruledBy([sent], [{ ...told, status: 'done' }])).toEqual([])
    expect(overruledBy([sent], [])).toEqual([])
    expect(overruledBy([sent], [{ ...told, tickedAt: null }])).toEqual([])
  })

  it('are none where it is oneself, at another device', () => {
    expect(overruledBy([sent], [{ ...told, tickedBy: 'Ines Coldwell' }])).toEqual([])
    // Nobody gave a name: it may be anybody.
    expect(overruledBy([{ ...sent, by: null }], [{ ...told, tickedBy: null }])).toHaveLength(1)
  })
})
