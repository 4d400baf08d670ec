import { describe, expect, it } from 'vitest'
import { hrefOf, readChoices } from '../../../app/_listing/thread-filter'
import { exactLength, formatStrandBoth } from '../../../app/threads/amounts'
import { formatColour, parseColour } from '../../../app/threads/colour-text'
import { correctSchema, editThreadSchema, receiveSchema, recordUseSchema, relabelSchema } from '../../../app/threads/schema'

const figures = { unit: 'm' as const, strands: 6, putUpStrandTenths: 480_000, putUpMilligrams: null }
const metre = 60_000

describe('colours as they are typed', () => {
  it('reads six hexadecimal figures or three of Lab, and nothing else', () => {
    expect(parseColour('#ffffff')?.L).toBeCloseTo(100, 3)
    expect(parseColour(' 36,2; 41; 27,5 ')).toEqual({ L: 36.2, a: 41, b: 27.5 })
    for (const text of ['', 'red', '36 41', '101 0 0', '50 129 0']) expect(parseColour(text)).toBeNull()
  })

  it('shows figures to a tenth', () => {
    expect(formatColour({ L: 36.24, a: 41, b: -27.46 })).toBe('36.2 41 -27.5')
  })
})

describe('lengths in forms', () => {
  it('are said in both units, the person’s first', () => {
    expect(formatStrandBoth(8 * metre, 6, 'm')).toBe('8 m (8.75 yd)')
    expect(formatStrandBoth(8 * metre, 6, 'yd')).toBe('8.75 yd (8 m)')
  })

  it('come in whatever unit reads back the same', () => {
    expect(exactLength(80_000, 'yd')).toBe('8 m')
    expect(exactLength(45_720, 'm')).toBe('5 yd')
    expect(exactLength(80_003, 'm')).toBe('8000.3 mm')
  })
})

describe('what the forms of stock send', () => {
  const batch = { batchId: 'b1', version: '3' }

  it('leaves a part as it was exactly while it is shown alike', () => {
    const sent = { ...batch, wholePutUps: '1', partCertainty: 'measured', partBefore: '150001', reason: 'counted' }
    expect(correctSchema(figures).parse({ ...sent, part: '2.5 m' }).partStrandTenths).toBe(150_001)
    expect(correctSchema(figures).parse({ ...sent, part: '3 m' }).partStrandTenths).toBe(3 * metre)
  })

  it('reads a part as a length, a fraction, a weight or “some”, and takes a person’s word for how it is known', () => {
    const sent = { ...batch, wholePutUps: '1', partBefore: '0', reason: 'counted' }
    const weighed = { ...figures, putUpMilligrams: 6_000 }
    const read = (part: string, partCertainty = '', by = figures as typeof figures | typeof weighed) => {
      const parsed = correctSchema(by).parse({ ...sent, part, partCertainty })
      return [parsed.partStrandTenths, parsed.partCertainty]
    }
    expect(read('2 m')).toEqual([2 * metre, 'measured'])
    expect(read('2 m', 'label')).toEqual([2 * metre, 'label'])
    expect(read('1/2')).toEqual([4 * metre, 'guess'])
    expect(read('some', 'measured')).toEqual([0, 'some'])
    expect(read('')).toEqual([0, 'none'])
    expect(read('3 g', '', weighed)).toEqual([4 * metre, 'measured'])
    const refused = correctSchema(figures).safeParse({ ...sent, part: '3 g' })
    expect(refused.error?.issues.map(({ path, message }) => [path[0], message.slice(0, 29)])).toEqual([
      ['part', 'What a full one weighs is not'],
    ])
  })

  it('says whether it is used up or how much was used', () => {
    const sent = { ...batch, strandTenths: '' }
    expect(recordUseSchema(figures).parse({ ...sent, isAll: 'on' }).strandTenths).toBe('all')
    expect(recordUseSchema(figures).parse({ ...sent, strandTenths: '2 m' }).strandTenths).toBe(2 * metre)
    expect(recordUseSchema(figures).safeParse(sent).error?.issues[0]?.path).toEqual(['strandTenths'])
  })

  it('reads a corrected label: a lot left out is unmarked, a length left alone is exact', () => {
    const sent = { ...batch, putUpBefore: '480000', reason: 'misread' }
    expect(relabelSchema(figures).parse({ ...sent, lot: ' ', putUpStrandTenths: '8 m' })).toEqual({
      ...{ batchId: 'b1', version: 3, lot: null, putUpWord: null, putUpStrandTenths: 480_000, reason: 'misread' },
    })
    expect(relabelSchema(figures).parse({ ...sent, lot: '18', putUpStrandTenths: '10' }).putUpStrandTenths).toBe(10 * metre)
    const refused = relabelSchema(figures).safeParse({ ...sent, putUpStrandTenths: '', reason: ' ' })
    expect(refused.error?.issues.map(({ path }) => path[0])).toEqual(['putUpStrandTenths', 'reason'])
  })

  it('takes thread in by the put-up of its line unless another is given', () => {
    const sent = { threadId: 't', ownerId: 'o', wholePutUps: '1,000', place: 'T2.1' }
    expect(receiveSchema(figures).parse(sent)).toMatchObject({ wholePutUps: 1_000, putUpStrandTenths: null, lot: null })
    expect(receiveSchema(figures).safeParse({ ...sent, wholePutUps: '1.5' }).success).toBe(false)
    const shorter = { ...sent, putUpStrandTenths: '5 yd', part: '1/2', putUpWord: 'hank' }
    expect(receiveSchema(figures).parse(shorter)).toMatchObject({ putUpWord: 'hank', partStrandTenths: 137_160 })
  })

  it('keeps a colour exactly while it is shown alike', () => {
    const sent = { threadId: 't', version: '0', code: '0017', labBefore: '36.24 41 27.5' }
    expect(editThreadSchema.parse({ ...sent, lab: '36.2 41 27.5' }).lab).toEqual({ L: 36.24, a: 41, b: 27.5 })
    expect(editThreadSchema.parse({ ...sent, lab: '' }).lab).toBeNull()
  })
})

describe('the choices above the list of threads', () => {
  it('stand in the address and come back from it, what cannot be read as no choice', () => {
    const choices = readChoices({ maker: 'm1', stock: 'low', page: '2', text: ' red ' })
    expect(choices).toMatchObject({ maker: 'm1', stock: 'low', page: 2, text: 'red', line: '' })
    expect(readChoices({ stock: 'everything', page: '-4' })).toMatchObject({ stock: '', page: 1 })
    expect(hrefOf(choices)).toBe('/threads?maker=m1&stock=low&text=red&page=2')
    expect(hrefOf(readChoices({}))).toBe('/threads')
  })
})
