import { describe, expect, it } from 'vitest'
import { shareNotions } from '#lib/project/kit/reserves'

const home = { alike: 'needle 24', count: 20, isOut: false, projectId: null }
const want = (itemId: string, projectId: string, count = 13) => ({ itemId, projectId, alike: 'needle 24', count })

describe('notions shared out to kits', () => {
  it('go to who set them down first; the rest is the next one’s', () => {
    const shares = shareNotions([home], [want('a', 'p1'), want('b', 'p2')])
    expect(shares.get('a')).toEqual({ taken: 0, reserved: 13, free: 0 })
    expect(shares.get('b')).toEqual({ taken: 0, reserved: 7, free: 0 })
  })

  it('are first of all those taken for the project, and what is out is nobody’s', () => {
    const rows = [
      { ...home, count: 5 },
      { ...home, count: 9, projectId: 'p1' },
      { ...home, count: 30, isOut: true },
    ]
    const shares = shareNotions(rows, [want('a', 'p1'), want('b', 'p2', 3)])
    expect(shares.get('a')).toEqual({ taken: 9, reserved: 4, free: 0 })
    expect(shares.get('b')).toEqual({ taken: 0, reserved: 1, free: 0 })
  })

  it('leave free what nobody wants, and what another project has is not free', () => {
    const rows = [home, { ...home, count: 4, projectId: 'p9' }]
    expect(shareNotions(rows, [want('a', 'p1', 6)]).get('a')).toEqual({ taken: 0, reserved: 6, free: 14 })
  })

  it('are not given twice to two lines of one project', () => {
    const rows = [{ ...home, count: 2, projectId: 'p1' }]
    const shares = shareNotions(rows, [want('a', 'p1', 2), want('b', 'p1', 2)])
    expect([shares.get('a')?.taken, shares.get('b')?.taken]).toEqual([2, 0])
  })
})
