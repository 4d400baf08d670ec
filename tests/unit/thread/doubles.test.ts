import { describe, expect, it } from 'vitest'
import { pairKey } from '#lib/chart/doubles-suggested'
import { type ComparedThread, suggestThreads } from '#lib/thread/doubles'
import { formerCodeKey, formerMakerBegin } from '#lib/thread/former-code'

const thread = (id: string, code: string, over: Partial<ComparedThread> = {}): ComparedThread => ({
  ...{ id, lineId: 'stranded', code, name: null, lab: null },
  ...over,
})
const pairs = (...threads: ComparedThread[]) =>
  suggestThreads(threads, new Set()).map(({ firstId, secondId, reasons }) => [firstId, secondId, ...reasons])

describe('threads', () => {
  it.each([
    ['0017', '17'],
    ['17 A', '17a'],
    ['B-12', 'B12'],
    ['O742', '0742'],
    ['1O4', '104'],
    ['l2', '12'],
    ['Tarn Blue', 'tarn-blue'],
  ])('%s and %s of one line may be one', (left, right) => {
    expect(pairs(thread('a', left), thread('b', right))).toEqual([['a', 'b', 'codes-read-alike']])
  })

  it('of another line, name or colour are two', () => {
    expect(pairs(thread('a', '0017'), thread('b', '17', { lineId: 'silk' }))).toEqual([])
    expect(pairs(thread('a', '0017', { name: 'Pine' }), thread('b', '17', { name: 'Rust' }))).toEqual([])
    const [one, other] = [
      { L: 46, a: 38, b: 18 },
      { L: 82, a: 3, b: 14 },
    ]
    expect(pairs(thread('a', '0017', { lab: one }), thread('b', '17', { lab: other }))).toEqual([])
    expect(pairs(thread('a', '17'), thread('b', '170'), thread('c', '17A'))).toEqual([])
  })

  it('of one name and colour may be one, whatever the codes', () => {
    const lab = { L: 46, a: 38, b: 18 }
    expect(pairs(thread('a', 'TB', { name: 'Tarn Blue', lab }), thread('b', '12', { name: 'Tarn Blue', lab }))).toEqual([
      ['a', 'b', 'same-name', 'same-colour'],
    ])
    expect(pairs(thread('a', '1', { name: 'Rose' }), thread('b', '2', { name: 'Rose' }))).toEqual([])
  })

  it('are not suggested once told apart', () => {
    expect(suggestThreads([thread('a', '0017'), thread('b', '17')], new Set([pairKey('b', 'a')]))).toEqual([])
  })
})

describe('a former code', () => {
  it('is known by maker and line however spelt, and by the exact code', () => {
    const key = formerCodeKey({ makerName: 'Larkholm', lineName: 'Stranded Cotton', code: '0017' })
    expect(formerCodeKey({ makerName: ' LARKHOLM ', lineName: 'stranded  cotton', code: '0017' })).toBe(key)
    expect(formerCodeKey({ makerName: 'Larkholm', lineName: 'Stranded Cotton', code: '17' })).not.toBe(key)
    expect(key.startsWith(formerMakerBegin('larkholm'))).toBe(true)
    expect(key.startsWith(formerMakerBegin('lark'))).toBe(false)
  })
})
