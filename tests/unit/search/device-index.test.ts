import { describe, expect, it } from 'vitest'
import { type DeviceThing, makeDeviceIndex, searchDevice } from '#lib/search/device-index'

const places = [
  { id: 'p1', label: 'T2.1-14', name: '' },
  { id: 'p2', label: 'Rack B', name: 'by the window' },
]
const thread = (id: string, maker: string, code: string): DeviceThing => ({
  ...{ noun: 'thread', id, title: `${maker} ${code}`, note: 'stranded', code, placeId: 'p1' },
})
const design = (id: string, title: string, note = ''): DeviceThing => ({
  ...{ noun: 'design', id, title, note, code: '', placeId: 'p2' },
})
const place = (id: string, label: string): DeviceThing => ({
  noun: 'place',
  id,
  title: label,
  note: '',
  code: label,
  placeId: id,
})
const index = makeDeviceIndex(
  [
    design('d1', 'Rook Hill in Snow', 'Mirabel Stoat'),
    design('d2', 'Moth and Candle'),
    thread('t1', 'Larkholm', '0017'),
    thread('t2', 'Brindlequay', '17'),
    thread('t3', 'Brindlequay', '17A'),
    thread('t4', 'Brindlequay', '172'),
    place('p1', 'T2.1-14'),
    place('p2', 'Rack B'),
  ],
  places,
)
const idsOf = (asked: string) => searchDevice(index, asked, 40).hits.map(({ id, match }) => `${id} ${match}`)

describe('finding without a connection', () => {
  // Acceptance scenario A18: "17" is Brindlequay 17; 0017 and 17A are close, and codes keep their zeros.
  it('meets a code exactly, and puts near ones after it', () => {
    expect(idsOf('17')).toEqual(['t2 exact', 't3 close', 't1 close', 't4 words'])
    expect(idsOf('0017')[0]).toBe('t1 exact')
  })

  it('leads from a label to its place, and from a title to where it is', () => {
    expect(searchDevice(index, 't2.1-14', 5).hits[0]).toMatchObject({ noun: 'place', id: 'p1', match: 'exact' })
    expect(searchDevice(index, 'rook', 5).hits[0]?.place).toEqual({ id: 'p2', label: 'Rack B', name: 'by the window' })
  })

  it('wants all words, the last of them perhaps only begun', () => {
    expect(idsOf('stoat rook hi')).toEqual(['d1 words'])
    expect(idsOf('stoat moth')).toEqual([])
    expect(idsOf('sto rook')).toEqual([])
    expect(idsOf('  ')).toEqual([])
  })

  it('shows so many and counts all', () => {
    expect(searchDevice(index, 'brindlequay', 2)).toMatchObject({ found: 3, hits: [{ id: 't2' }, { id: 't4' }] })
  })

  it('leaves designs out where there is no room, and says how many', () => {
    const small = makeDeviceIndex(
      [design('d2', 'B'), thread('t1', 'Larkholm', '9'), design('d1', 'A'), design('d3', 'C')],
      places,
      2,
    )
    expect(small.things.map(([, id]) => id)).toEqual(['t1', 'd1'])
    expect(small.leftOut).toBe(2)
  })
})
