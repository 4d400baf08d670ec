import { describe, expect, it } from 'vitest'
import { opinionRows } from '#lib/importing/opinion-rows'
import { type NamedThread, readOpinions, ThreadNames } from '#lib/thread/substitution-opinions'

const thread = (
  threadId: string,
  makerName: string,
  lineName: string,
  code: string,
  name: string | null = null,
): NamedThread => ({
  threadId,
  lineId: `${makerName} ${lineName}`,
  makerName,
  lineName,
  code,
  name,
})
const names = new ThreadNames([
  thread('l0311', 'Larkholm', 'Stranded', '0311', 'Rook Grey'),
  thread('l0017', 'Larkholm', 'Stranded', '0017'),
  thread('b17', 'Brindlequay', 'Silk', '17'),
  thread('b17a', 'Brindlequay', 'Silk', '17A'),
  thread('tarn', 'Oddny Loft', 'Hand-dyed', 'Tarn Blue'),
  thread('m17', 'Marrowgate', 'Braid', '17'),
])
const noLines = { lineId: null, otherLineId: null }
const read = (text: string, lines: { lineId: string | null; otherLineId: string | null } = noLines) => {
  const rows = opinionRows(text)
  if (!rows.ok) throw new Error(`not read: ${rows.error.kind}`)
  return readOpinions(rows.value.rows, names, lines)
}

describe('finding a thread by its name', () => {
  it.each([
    ['Larkholm 0311', 'l0311'],
    ['larkholm STRANDED 0311 rook grey', 'l0311'],
    ['0311', 'l0311'],
    ['Oddny Loft Tarn Blue', 'tarn'],
    ['Tarn Blue', 'tarn'],
  ])('reads %s', (text, threadId) => {
    expect(names.find(text, null)).toEqual({ kind: 'found', threadId })
  })

  it('takes a code to the letter, and shows what is near', () => {
    expect(names.find('Larkholm 17', null)).toEqual({ kind: 'none', near: ['l0017'] })
  })

  it('chooses none of several, unless the line is given', () => {
    expect(names.find('17', null)).toEqual({ kind: 'several', threadIds: ['b17', 'm17'] })
    expect(names.find('17', 'Brindlequay Silk')).toEqual({ kind: 'found', threadId: 'b17' })
  })
})

describe('reading a list of what stands for what', () => {
  it('reads arrows, two columns, four and six', () => {
    const pair = { threadId: 'l0311', otherThreadId: 'b17a' }
    expect(read('Larkholm 0311 → Brindlequay 17A').matched).toMatchObject([pair])
    expect(read('Larkholm 0311;Brindlequay 17A\nLarkholm 0017;Brindlequay 17').matched).toMatchObject([
      pair,
      { threadId: 'l0017', otherThreadId: 'b17' },
    ])
    expect(read('Larkholm,0311,Brindlequay,17A').matched).toMatchObject([pair])
    expect(read('Larkholm\tStranded\t0311\tBrindlequay\tSilk\t17A').matched).toMatchObject([pair])
  })

  it('reads bare codes within the lines that were named', () => {
    expect(read('0017 = 17\n0311 = 17A', { lineId: 'Larkholm Stranded', otherLineId: 'Brindlequay Silk' }).matched).toEqual([
      { threadId: 'l0017', otherThreadId: 'b17', rowNumber: 1 },
      { threadId: 'l0311', otherThreadId: 'b17a', rowNumber: 2 },
    ])
  })

  it('keeps aside what it cannot tell, with its row and reason, and loses no other row', () => {
    const { matched, unmatched } = read(
      [
        'From,To',
        'Larkholm 0311,Brindlequay 17',
        'Larkholm 17,Brindlequay 17',
        'Larkholm 0311,17',
        'Larkholm 0311,Larkholm 0311',
      ].join('\n'),
    )
    expect(matched).toEqual([{ threadId: 'l0311', otherThreadId: 'b17', rowNumber: 2 }])
    expect(unmatched).toMatchObject([
      { rowNumber: 1, kind: 'no-such-thread', text: 'From' },
      { rowNumber: 3, kind: 'no-such-thread', text: 'Larkholm 17', near: ['l0017'] },
      { rowNumber: 4, kind: 'several-threads', text: '17', threadIds: ['b17', 'm17'] },
      { rowNumber: 5, kind: 'same-thread' },
    ])
  })

  it('takes an opinion one way, many to one, and once', () => {
    const { matched, unmatched } = read('0311 -> Brindlequay 17\n0017 -> Brindlequay 17\n0311 -> Brindlequay 17')
    expect(matched.map(({ threadId, otherThreadId }) => `${threadId} ${otherThreadId}`)).toEqual(['l0311 b17', 'l0017 b17'])
    expect(unmatched).toMatchObject([{ rowNumber: 3, kind: 'said-twice' }])
  })

  it('says of a row that does not name two threads that it does not', () => {
    expect(read('Larkholm 0311;;\nLarkholm;0311;Brindlequay;;').unmatched).toMatchObject([
      { rowNumber: 1, kind: 'not-two-threads' },
      { rowNumber: 2, kind: 'not-two-threads' },
    ])
  })
})
