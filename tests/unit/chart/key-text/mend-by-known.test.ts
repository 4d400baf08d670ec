import { describe, expect, it } from 'vitest'
import { matchThread } from '#lib/chart/key-text/match'
import { mendedByKnown, strangersDoubted } from '#lib/chart/key-text/mend-by-known'
import type { NamedThread, ReadKeyLine } from '#lib/chart/key-text/reading'
import { vocabularyOf } from '#lib/chart/key-text/vocabulary'

const aThread = (id: string, code: string, name: string) => ({
  id,
  maker: 'Larkholm',
  threadLine: 'Stranded Cotton',
  code,
  name,
})
const known = vocabularyOf([
  aThread('a', '0311', 'Deep Pine'),
  aThread('b', '0742', 'Crème'),
  aThread('c', '1523', 'Old Rope'),
  aThread('d', '140B', 'Sorrel'),
])
const read = (code: string, name: string, confidence = 0.9): NamedThread => ({
  maker: { value: 'Larkholm', confidence: 0.95, line: 0 },
  threadLine: null,
  code: { value: code, confidence, line: 0 },
  name: { value: name, confidence, line: 0 },
  strands: null,
})
const mended = (named: NamedThread) =>
  mendedByKnown(named, matchThread(named, { maker: null, threadLine: null }, known, false), known)

const line = (named: NamedThread, isKnown: boolean): ReadKeyLine => ({
  from: [0],
  symbol: null,
  threads: [
    {
      named,
      match: isKnown ? { kind: 'known', threadId: 'a', confidence: 0.9, by: 'code' } : { kind: 'new', lacks: [] },
    },
  ],
  stitches: null,
  amounts: [],
  rest: null,
})

describe('a thread told from a picture', () => {
  it('has the name of the one with its code, where that is a letter or an accent off', () => {
    expect(mended(read('0742', 'Créme')).name).toMatchObject({ value: 'Crème', confidence: 0.86 })
    expect(mended(read('0311', 'Pine')).name?.value).toBe('Pine')
    expect(mended(read('0311', 'DeepPine')).name?.value).toBe('Deep Pine')
  })

  it('has the code of the one with its name, where that is a sign off', () => {
    expect(mended(read('1408', 'Sorrel')).code).toMatchObject({ value: '140B', confidence: 0.86 })
    expect(mended(read('031', 'Deep Pine')).code?.value).toBe('0311')
  })

  it('is surer where code and name agree, and doubted where they are those of two threads', () => {
    expect(mended(read('0311', 'Deep Pine', 0.7))).toMatchObject({ code: { confidence: 0.95 }, name: { confidence: 0.95 } })
    const odd = mended(read('0311', 'Old Rope', 0.97))
    expect(odd).toMatchObject({ code: { value: '0311' }, name: { value: 'Old Rope' } })
    expect(Math.max(odd.code?.confidence ?? 1, odd.name?.confidence ?? 1)).toBeLessThan(0.8)
  })

  it('is doubted where nobody knows it and nearly all others of its list are known', () => {
    const all = (share: number) =>
      strangersDoubted(
        Array.from({ length: 10 }, (_, at) => line(read('0311', 'Deep Pine', 0.95), at < share)),
        known,
      )
    expect(all(9)[9]?.threads[0]?.named.code?.confidence).toBe(0.78)
    expect(all(9)[0]?.threads[0]?.named.code?.confidence).toBe(0.95)
    expect(all(5)[9]?.threads[0]?.named.code?.confidence).toBe(0.95)
  })

  it('is of a line for sure only where a thread of its list is known to be', () => {
    const threadLine = (value: string) => ({ value, confidence: 0.93, line: 0 })
    const listOf = (value: string, isKnown: boolean) =>
      strangersDoubted([line({ ...read('0311', 'Deep Pine'), threadLine: threadLine(value) }, isKnown)], known)
    const sure = (lines: ReadKeyLine[]) => lines[0]?.threads[0]?.named.threadLine?.confidence
    expect(sure(listOf('Stranded Cotton', true))).toBe(0.93)
    expect(sure(listOf('Colour Card', true))).toBe(0.78)
    expect(sure(listOf('Stranded Cotton', false))).toBe(0.78)
  })
})
