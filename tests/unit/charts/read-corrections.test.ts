import { describe, expect, it } from 'vitest'
import type { ReadFacts, ReadField, ReadKeyLine } from '#lib/chart/key-text/reading'
import { correctionsSchema } from '../../../app/_reading/correction-schema'
import {
  acceptField,
  typedPutUps,
  typedStitches,
  typedStrands,
  typedSymbol,
} from '../../../app/charts/read/[readingId]/corrections'
import { factStanding, factText, typedFact } from '../../../app/charts/read/[readingId]/facts'

const field = <T>(value: T, confidence = 0.5): ReadField<T> => ({ value, confidence, line: 3 })
const place = { design: 0, list: 1, line: 2 }
const line: ReadKeyLine = {
  ...{ from: [3], symbol: field('●'), stitches: null, rest: null },
  threads: [
    {
      named: { maker: field('Larkholm'), threadLine: null, code: field('0311'), name: null, strands: field(2) },
      match: { kind: 'known', threadId: 't1', confidence: 0.6, by: 'code' },
    },
  ],
  amounts: [
    { kind: 'stitches', stitch: 'backstitch', count: field(120) },
    { kind: 'put-ups', hundredths: field(100), putUpWord: 'hank' },
  ],
}
const edits = (typed: ReturnType<typeof typedSymbol>) => {
  if (!typed.ok) throw new Error(typed.message)
  // Whatever the page sends is taken by the server.
  return correctionsSchema.parse(typed.corrections).map((one) => ('edit' in one ? one.edit : one))
}

describe('what is typed in a review', () => {
  it('keeps the other amounts of the line, and what a count counts', () => {
    expect(edits(typedStitches(line, place, 0, '1,240'))).toMatchObject([
      {
        field: 'amounts',
        value: [
          { kind: 'stitches', stitch: 'backstitch', count: { value: 1_240, byHand: true } },
          { kind: 'put-ups', hundredths: { value: 100 }, putUpWord: 'hank' },
        ],
      },
    ])
    expect(edits(typedStitches(line, place, 0, ' '))).toMatchObject([{ value: [{ kind: 'put-ups' }] }])
  })

  it('reads skeins as parts of one, rounded up, or as a length', () => {
    const amountOf = (text: string) => edits(typedPutUps(line, place, 2, text, 'm'))
    expect(amountOf('1/3')).toMatchObject([{ value: [{}, {}, { kind: 'put-ups', hundredths: { value: 34 } }] }])
    expect(amountOf('0,6')).toMatchObject([{ value: [{}, {}, { hundredths: { value: 60 } }] }])
    // 3.1 m are 31,000 tenths of a millimetre.
    expect(amountOf('3.1 m')).toMatchObject([{ value: [{}, {}, { kind: 'length', tenths: { value: 31_000 } }] }])
  })

  it('says what would be taken where it cannot be read', () => {
    expect(typedStrands(place, 0, '0')).toMatchObject({ ok: false, message: expect.stringContaining('1 to 24') })
    expect(typedStitches(line, place, 0, 'many')).toMatchObject({ ok: false })
    expect(typedPutUps(line, place, 1, 'two', 'm')).toMatchObject({ ok: false })
    expect(typedSymbol(place, 'x'.repeat(21))).toMatchObject({ ok: false })
    expect(typedFact(0, 'size', '140')).toMatchObject({ ok: false })
    expect(typedFact(0, 'count', 'fine')).toMatchObject({ ok: false })
  })

  it('says of a field that it is right without changing it or teaching others', () => {
    const accepted = (kind: Parameters<typeof acceptField>[2]) => correctionsSchema.parse(acceptField(line, place, kind))
    expect(accepted({ kind: 'symbol' })).toEqual([
      { kind: 'field', place, teachesRest: false, edit: { field: 'symbol', value: '●' } },
    ])
    expect(accepted({ kind: 'thread', thread: 0 })).toMatchObject([
      { teachesRest: false, edit: { field: 'match', threadId: 't1' } },
    ])
    expect(accepted({ kind: 'amount', amount: 1 })).toMatchObject([
      { edit: { field: 'amounts', value: [{ count: { value: 120 } }, { hundredths: { value: 100 } }] } },
    ])
  })
})

describe('what the text says of a design', () => {
  const facts: ReadFacts = {
    ...{ title: field('Nine Wrens', 1), designer: null, measuredWidthUm: null, measuredHeightUm: null, weave: null, cloth: null },
    ...{
      widthStitches: field(140, 1),
      heightStitches: field(98, 0.4),
      count: field({ threads: 28, perUm: 25_400 }, 1),
      over: null,
    },
  }

  it('is shown as one field, no surer than its least sure part', () => {
    expect(factText(facts, 'size', 'in')).toBe('140 × 98')
    expect(factStanding(facts, 'size')).toBe('look')
    expect(factStanding(facts, 'title')).toBe('sure')
    expect(factStanding(facts, 'over')).toBe('empty')
  })

  it('is corrected as typed: a ruled size takes the stitches away, a count may say how many threads it goes over', () => {
    expect(edits(typedFact(0, 'size', '10 x 7 in'))).toEqual([
      { fact: 'widthStitches', value: null },
      { fact: 'heightStitches', value: null },
      { fact: 'measuredWidthUm', value: 254_000 },
      { fact: 'measuredHeightUm', value: 177_800 },
    ])
    expect(edits(typedFact(0, 'count', '32 over 2'))).toEqual([
      { fact: 'count', value: { threads: 32, perUm: 25_400 } },
      { fact: 'over', value: 2 },
    ])
    expect(edits(typedFact(0, 'designer', ' '))).toEqual([{ fact: 'designer', value: null }])
  })
})
