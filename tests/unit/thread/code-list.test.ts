import { expect, it } from 'vitest'
import { parseCodeList } from '#lib/thread/code-list'

it('reads codes apart by commas, semicolons and lines, each once, exact', () => {
  expect(parseCodeList(' 0017, 17A;Tarn Blue\n0017,,')).toEqual(['0017', '17A', 'Tarn Blue'])
  expect(parseCodeList(' ')).toEqual([])
})

it('reads a run of numbers, zeros and all', () => {
  expect(parseCodeList('0098-0101')).toEqual(['0098', '0099', '0100', '0101'])
})

it('leaves alone what is no run: ends of other lengths, backwards, or too long', () => {
  expect(parseCodeList('9-12, 12-10, 0001-9999, T2-14')).toEqual(['9-12', '12-10', '0001-9999', 'T2-14'])
})
