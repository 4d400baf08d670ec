// Codes: a scenario of the trade worked by hand. 9, 10, 0017, 17A, 100 and Ecru sort as Ecru, 9, 10, 0017, 17A, 100. A search for 17 finds
// 17 itself; 0017 and 17A are shown as close, being other codes.
import { describe, expect, it } from 'vitest'
import { compareCodes, isCloseCode } from '#lib/thread/code-order'

describe('codes of threads', () => {
  it('come in the order of a drawer', () => {
    expect(['9', '10', '0017', '17A', '100', 'Ecru'].sort(compareCodes)).toEqual(['Ecru', '9', '10', '0017', '17A', '100'])
  })

  it('are close to a search without being it', () => {
    expect(['17', '0017', '17A', '117', '172', 'Ecru'].filter((code) => isCloseCode('17', code))).toEqual(['0017', '17A'])
  })
})
