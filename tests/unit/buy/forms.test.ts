import { describe, expect, it } from 'vitest'
import { readComparison, readTexts } from '../../../app/buy/compare/read-comparison'
import { buyChoicesSchema, buyHref } from '../../../app/buy/filter'
import { itemField, orderListSchema, putUpsField } from '../../../app/buy/schema'
import { saveRuleSchema } from '../../../app/threads/[threadId]/reorder/schema'

describe('a list put down as ordered', () => {
  const hidden = JSON.stringify({ orderId: 'o1', putUpStrandTenths: 480_000, lot: null })
  const form = { ownerId: 'shop', orderedOn: '2026-09-01', expectedOn: '', supplier: 'Larkholm' }

  it('takes the boxes that are filled in and passes over empty ones and noughts', () => {
    const read = orderListSchema.parse({
      ...form,
      ...{ [putUpsField('a')]: '3', [itemField('a')]: hidden },
      ...{ [putUpsField('b')]: ' ', [itemField('b')]: hidden },
      ...{ [putUpsField('c')]: '0', [itemField('c')]: hidden },
    })
    expect(read).toEqual({
      ...form,
      expectedOn: null,
      items: [{ orderId: 'o1', putUpStrandTenths: 480_000, lot: null, threadId: 'a', putUps: 3 }],
    })
  })

  it('points at the box that does not read', () => {
    const read = orderListSchema.safeParse({ ...form, [putUpsField('a')]: 'three', [itemField('a')]: hidden })
    expect(read.error?.issues.map(({ path }) => path)).toEqual([['putUps.a']])
    expect(orderListSchema.safeParse({ ...form, [putUpsField('a')]: '3', [itemField('a')]: '{' }).success).toBe(false)
  })
})

describe('two lengths compared', () => {
  const texts = readTexts({ need: '7 m', firstLength: '5 yd', firstPrice: '2.60', secondLength: '8 m', secondPrice: '€1,50' })

  it('reads lengths in either unit and prices as people write them', () => {
    expect(readComparison(texts, 'm')).toMatchObject({ needTenths: 70_000, best: { putUps: [0, 1], priceMinor: 150 } })
  })

  it('says which figure does not read, and nothing while nothing is filled in', () => {
    expect(readComparison({ ...texts, secondPrice: 'dear' }, 'm')).toEqual({ secondPrice: 'A price is such as 1.50.' })
    expect(readComparison({ ...texts, firstLength: '1 mm', need: '9000 m' }, 'm')).toHaveProperty('need')
    expect(readComparison(readTexts({}), 'm')).toBeNull()
  })
})

describe('the address of a list', () => {
  it('carries every choice there and back', () => {
    const choices = { design: ['a', 'b'], list: ['l'], project: ['p'], q: 'rook', maker: 'm', prices: true }
    const query = new URL(buyHref(choices), 'http://127.0.0.1').searchParams
    const params = Object.fromEntries([...new Set(query.keys())].map((name) => [name, query.getAll(name)]))
    const one = (name: string) => params[name]?.[0]
    expect(buyChoicesSchema.parse({ ...params, q: one('q'), maker: one('maker'), prices: one('prices') })).toEqual(choices)
    expect(buyHref(buyChoicesSchema.parse({}))).toBe('/buy')
  })
})

describe('the form of a rule', () => {
  const seen = { threadId: 't', ownerId: 'shop', version: '' }

  it('reads what is sold in a week into hundredths, and four weeks where nothing is said', () => {
    const filled = { kind: 'point', demandHundredths: '5,8', spreadHundredths: '2.4', leadWeeks: '3' }
    expect(saveRuleSchema.parse({ ...seen, ...filled })).toMatchObject({
      version: null,
      rule: { kind: 'point', demandHundredths: 580, spreadHundredths: 240, leadWeeks: 3, coverWeeks: 4, packPutUps: 1 },
    })
  })

  it('asks only for the figures of the way chosen', () => {
    const minimum = { ...seen, version: '2', kind: 'minimum', minimumPutUps: '2', demandHundredths: '9' }
    expect(saveRuleSchema.parse(minimum)).toMatchObject({ version: 2, rule: { kind: 'minimum', minimumPutUps: 2 } })
    const wanting = saveRuleSchema.safeParse({ ...seen, kind: 'point', leadWeeks: '3' })
    expect(wanting.error?.issues.map(({ path }) => path[0])).toEqual(['demandHundredths', 'spreadHundredths'])
  })
})
