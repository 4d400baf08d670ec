import { describe, expect, it } from 'vitest'
import { counted, limitWords, listed, plural, threadLength } from '#words/amounts'

describe('words for amounts', () => {
  it('make a word plural as it is spelt', () => {
    expect(['skein', 'box', 'batch', 'stitch', 'copy', 'tray', 'dish'].map(plural)).toEqual([
      'skeins',
      'boxes',
      'batches',
      'stitches',
      'copies',
      'trays',
      'dishes',
    ])
  })

  it('count one, none and many', () => {
    expect([counted(1, 'skein'), counted(0, 'skein'), counted(1_240, 'stitch')]).toEqual([
      '1 skein',
      '0 skeins',
      '1,240 stitches',
    ])
  })

  it('give a limit in seconds, or in minutes from the first on', () => {
    expect([20, 60, 300].map(limitWords)).toEqual(['20 seconds', '1 minute', '5 minutes'])
  })

  it('list with commas and one "and"', () => {
    expect([listed([]), listed(['a']), listed(['a', 'b']), listed(['a', 'b', 'c'])]).toEqual(['', 'a', 'a and b', 'a, b and c'])
  })

  it('say a length of strand as the thread it is parted from', () => {
    // 480,000 tenths of one strand are 48 m of it: 8 m of a thread of six.
    expect(threadLength(480_000, 6, 'm')).toBe('8 m')
    expect(threadLength(91_440, 1, 'yd')).toBe('10 yd')
  })
})
