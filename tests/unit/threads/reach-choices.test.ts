import { describe, expect, it } from 'vitest'
import { stitches } from '#lib/thread/stitches'
import { commonStitches, otherStitches, readReach } from '../../../app/threads/[threadId]/reach/reach-choices'

const usual = { strands: 2, working: 'crosses', allowance: 1.45 } as const
const read = (query: Record<string, string>) => readReach(query, usual)

describe('what is asked of a thread', () => {
  it('is at first nothing, on 14 to the inch, as the thread is usually worked', () => {
    const { how, tally, errors } = read({})
    expect(how).toEqual({ ...usual, acrossUm: 25_400 / 14, upUm: 25_400 / 14 })
    expect(tally).toEqual({})
    expect(errors).toEqual({})
  })

  it('is so many of each stitch on the cloth, over as many threads as are said or usual', () => {
    expect(read({ full: '2,940', satin: '60', eyelet: '', cloth: '28' })).toMatchObject({
      tally: { full: 2_940, satin: 60 },
      how: { acrossUm: (25_400 / 28) * 2 },
    })
    expect(read({ cloth: '28 over 1' }).how.acrossUm).toBeCloseTo(907.14, 2)
    expect(read({ cloth: '34 x 31 over 2', strands: '1', working: 'rows', allowance: '1.3' }).how).toEqual({
      ...{ acrossUm: (25_400 * 2) / 34, upUm: (25_400 * 2) / 31, strands: 1, working: 'rows', allowance: 1.3 },
    })
  })

  it('keeps what was typed and says what was not understood, reckoning with what is usual', () => {
    const { how, tally, errors, texts } = read({ cloth: 'linen', strands: '0', allowance: '9', full: 'many' })
    expect(Object.keys(errors).sort()).toEqual(['allowance', 'cloth', 'full', 'strands'])
    expect(texts).toMatchObject({ cloth: 'linen', strands: '0', allowance: '9', full: 'many' })
    expect(how).toEqual({ ...usual, acrossUm: 25_400 / 14, upUm: 25_400 / 14 })
    expect(tally).toEqual({})
  })

  it('has a field for every stitch', () => expect([...commonStitches, ...otherStitches].sort()).toEqual([...stitches].sort()))
})
