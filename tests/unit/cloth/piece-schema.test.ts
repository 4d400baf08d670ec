import { describe, expect, it } from 'vitest'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import {
  addClothSchema,
  bleedTestSchema,
  clothInputOf,
  countSchema,
  editClothSchema,
  readingsSchema,
  turningText,
  washSchema,
} from '../../../app/cloth/schema'

const reading = { unit: 'in' as const, today: '2026-12-01' }
const typed = {
  ...{ name: 'Linen', weave: 'single', count: '28', countCertainty: 'label', size: '18 x 27', sizeCertainty: 'measured' },
  ...{ dyeing: '', turning: '', washState: 'unknown', washedOn: '', hex: '', ownerId: 'o1' },
}
const add = (over: Record<string, string> = {}, counted: Parameters<typeof addClothSchema>[1] = null) =>
  addClothSchema(reading, counted).safeParse({ ...typed, ...over })
const wrongFields = (result: ReturnType<typeof add>) => (result.success ? [] : result.error.issues.map(({ path }) => path[0]))

describe('the card of a piece, as typed', () => {
  it('may be turned where nobody says otherwise of square cloth that is not hand-dyed', () => {
    expect(add().data).toMatchObject({ isTurnable: true, oneWayBecause: null, dyeing: null, washedOn: null })
    expect(add({ turning: 'stripe' }).data).toMatchObject({ isTurnable: false, oneWayBecause: 'stripe' })
    expect(add({ turning: 'unsaid' }).data).toMatchObject({ isTurnable: false, oneWayBecause: null })
  })

  it('has to say whether hand-dyed or uneven cloth may be turned', () => {
    expect(wrongFields(add({ dyeing: 'hand-dyed' }))).toEqual(['turning'])
    expect(wrongFields(add({ count: '34 x 31' }))).toEqual(['turning'])
    expect(add({ dyeing: 'hand-dyed', turning: 'either' }).data).toMatchObject({ isTurnable: true })
    expect(add({ count: '34 x 31', turning: 'count' }).data).toMatchObject({ isTurnable: false, oneWayBecause: 'count' })
  })

  it('keeps a counted ratio exactly while the field is left as it stood', () => {
    const counted = { ends: { threads: 201, perUm: 6 * UM_PER_INCH }, picks: { threads: 365, perUm: 12 * UM_PER_INCH } }
    const left = { count: '33.5 × 30.42 count', turning: 'count' }
    expect(add(left, counted).data?.count).toEqual(counted)
    expect(add({ ...left, count: '33.5 × 30.4 count' }, counted).data?.count.picks).toEqual({
      threads: 152,
      perUm: 5 * UM_PER_INCH,
    })
  })

  it('shows a piece that is held as it is', () => {
    expect(turningText({ isTurnable: true, oneWayBecause: null })).toBe('either')
    expect(turningText({ isTurnable: false, oneWayBecause: null })).toBe('unsaid')
    expect(turningText({ isTurnable: false, oneWayBecause: 'dye' })).toBe('dye')
    const held = editClothSchema(reading, null).parse({ ...typed, id: 'c1', version: '2', turning: 'dye' })
    const { id, version, ...card } = held
    expect([id, version, clothInputOf(card).oneWayBecause]).toEqual(['c1', 2, 'dye'])
  })

  it('was not washed on a day to come', () => {
    expect(add({ washState: 'washed', washedOn: '2026-12-01' }).data).toMatchObject({ washedOn: '2026-12-01' })
    expect(wrongFields(add({ washState: 'washed', washedOn: '2026-12-02' }))).toEqual(['washedOn'])
  })
})

describe('what is written down of a piece', () => {
  const piece = { id: 'c1', version: '3' }

  it('is a count by its readings, and whether it may still be turned', () => {
    const counted = { ...piece, across: '64/50800 63.5/50800', up: '61/50800', ruler: 'in', turning: 'count' }
    expect(countSchema.parse(counted)).toMatchObject({ across: [{ threads: 64 }, { threads: 63.5 }], up: [{ lengthUm: 50_800 }] })
    expect(countSchema.safeParse({ ...counted, turning: undefined }).success).toBe(false)
    expect(countSchema.safeParse({ ...counted, up: 'many' }).success).toBe(false)
    expect(readingsSchema.safeParse({ across: '64/50800', up: ['61/50800'], ruler: 'in' }).success).toBe(false)
  })

  it('is a wash, measured again or not', () => {
    const wash = { ...piece, washedOn: '2026-11-30', isSquared: 'on' }
    expect(washSchema(reading).parse(wash).measured).toBeNull()
    const measured = { widthUm: 17.5 * UM_PER_INCH, heightUm: 26 * UM_PER_INCH, isSquared: true }
    expect(washSchema(reading).parse({ ...wash, size: '17½ x 26' }).measured).toEqual(measured)
    expect(washSchema(reading).safeParse({ ...wash, size: 'smaller' }).error?.issues[0]?.path).toEqual(['size'])
    expect(washSchema(reading).safeParse({ ...wash, washedOn: '2026-12-02' }).success).toBe(false)
  })

  it('is a test that passed or bled, on a day that has been', () => {
    const test = { ...piece, result: 'passed', testedOn: '2026-12-01' }
    expect(bleedTestSchema(reading.today).parse(test)).toMatchObject({ result: 'passed', note: null })
    expect(bleedTestSchema(reading.today).safeParse({ ...test, result: undefined }).success).toBe(false)
    expect(bleedTestSchema('2026-11-30').safeParse(test).success).toBe(false)
  })
})
