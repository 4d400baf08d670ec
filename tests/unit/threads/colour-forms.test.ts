import { describe, expect, it } from 'vitest'
import { hrefOf, readChoices } from '../../../app/_listing/thread-filter'
import { addThreadSchema, editLineSchema } from '../../../app/threads/schema'
import { readQuestion } from '../../../app/threads/which/question'

describe('what the forms of threads send of a colour', () => {
  const sent = { lineId: 'l', code: '0017' }
  const read = (over: Record<string, string>) => addThreadSchema.safeParse({ ...sent, ...over })

  it('is how it is known, the family it is filed under, and a tick when it is no longer made', () => {
    const { data } = read({ lab: '36.2 41 27.5', labCertainty: 'guess', family: 'blue-green', isLeaving: 'on' })
    expect(data).toMatchObject({ labCertainty: 'guess', family: 'blue-green', isLeaving: true })
  })

  it('may all be left out', () => {
    expect(read({}).data).toMatchObject({ lab: null, labCertainty: null, family: null, isLeaving: false })
    expect(read({ labCertainty: '', family: '' }).data).toMatchObject({ labCertainty: null, family: null })
  })

  it('is refused at its field where it is none of the choices', () => {
    const wrong = (over: Record<string, string>) => read(over).error?.issues.map(({ path }) => path[0])
    expect(wrong({ family: 'mud' })).toEqual(['family'])
    expect(wrong({ labCertainty: 'estimated' })).toEqual(['labCertainty'])
  })
})

describe('what the form of a line sends of one put-up', () => {
  const sent = {
    ...{ lineId: 'l', version: '0', makerName: 'Larkholm', strands: '6', putUpTenths: '8 m', putUpWord: 'skein' },
    ...{ dyeing: 'solid', working: 'rows' },
  }
  const read = (over: Record<string, string>) => editLineSchema('m').safeParse({ ...sent, ...over })

  it('is its weight in grams, kept in milligrams, and its price', () => {
    expect(read({ putUpGrams: '4,2', price: '1.15' }).data).toMatchObject({ putUpGrams: 4_200, price: 115 })
    expect(read({ putUpGrams: '', price: '' }).data).toMatchObject({ putUpGrams: null, price: null })
  })

  it('is refused where it cannot be a weight or a price', () => {
    for (const putUpGrams of ['0', '-1', 'light', '10001']) expect(read({ putUpGrams }).success).toBe(false)
    for (const price of ['dear', '1.1555', '-1']) expect(read({ price }).success).toBe(false)
  })
})

describe('the choices above the list of threads', () => {
  it('are a family and an order too, the usual order unsaid', () => {
    const choices = readChoices({ family: 'green', place: 'p1', order: 'colour' })
    expect(choices).toMatchObject({ family: 'green', place: 'p1', order: 'colour' })
    expect(hrefOf(choices)).toBe('/threads?place=p1&family=green&order=colour')
    expect(readChoices({ family: 'mud', order: 'size' })).toMatchObject({ family: '', order: 'drawer' })
    expect(hrefOf(readChoices({ family: 'unknown' }))).toBe('/threads?family=unknown')
  })
})

describe('the question of a loose skein', () => {
  it('is read from the address, with nothing said where nothing can be read', () => {
    expect(readQuestion({ colour: ' #8e2f2b ', lot: ['18', '22'] })).toEqual({
      ...{ colour: '#8e2f2b', maker: '', line: '', fibre: '', lot: '' },
    })
  })
})
