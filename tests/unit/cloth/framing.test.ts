import { describe, expect, it } from 'vitest'
import { drumStrip, roundOfUm } from '#lib/cloth/drum-strip'
import { defaultFraming, framingMargin, hiddenUm } from '#lib/cloth/framing'
import { findFinishing, finishingMargins, listFinishings, marginsAllRound, marginsFor } from '#lib/cloth/margins'
import { settingsSchema } from '#lib/settings/settings'
import { inches } from './cloth-pieces'

describe('what a framed margin is made of', () => {
  // Common practice: 0.75 + 0.25 + 0.125 + 1.5 = 2.625 in, so 3.
  it.each([
    ['half inches', inches(0.5), inches(3)],
    ['quarters', inches(0.25), inches(2.75)],
    ['centimetres', 10_000, 70_000],
  ])('sums to 2.625 in and goes up by %s', (_, roundingUm, marginUm) => {
    expect(framingMargin(defaultFraming, roundingUm)).toEqual({ sumUm: inches(2.625), marginUm })
  })

  it('hides 1.875 in of it in the frame', () => expect(hiddenUm(defaultFraming)).toBe(inches(1.875)))
})

describe('a strip for a drum', () => {
  const settings = { margins: finishingMargins.drum, shrinkPercent: 0, roundingUm: inches(0.5) }

  it('is once round and 1 in of lap, its height and 1½ in above and below', () => {
    // 12 in round, 3 in high: 13 × 6 in.
    expect(drumStrip({ roundUm: inches(12), heightUm: inches(3) }, settings)).toMatchObject({
      exactWidthUm: inches(13),
      exactHeightUm: inches(6),
    })
  })

  it('goes by what it measures across too, never too short', () => {
    // 4 in across: 4 × 3.14159265… = 12.566371 in, 319,185.81 µm, so 13.566 in and 14 to cut.
    expect(roundOfUm(inches(4))).toBe(319_186)
    expect(drumStrip({ roundUm: roundOfUm(inches(4)), heightUm: inches(3) }, settings).widthUm).toBe(inches(14))
  })

  it('throws on no drum', () => expect(() => drumStrip({ roundUm: 0, heightUm: 1 }, settings)).toThrow(RangeError))
})

describe('ways of finishing', () => {
  const table = { ...settingsSchema.parse({}), ownFinishings: [{ name: 'Needle book', margins: marginsAllRound(inches(1.5)) }] }

  it('are those always there, then one’s own', () => {
    expect(listFinishings(table).at(0)).toMatchObject({ name: 'framed', isOwn: false })
    expect(listFinishings(table).at(-1)).toMatchObject({ name: 'Needle book', isOwn: true })
  })

  it('are found however they are written, and one that is gone goes by the framed margins', () => {
    expect(findFinishing(table, ' needle  BOOK ')?.name).toBe('Needle book')
    expect(marginsFor(table, 'needle book')).toEqual(marginsAllRound(inches(1.5)))
    expect(findFinishing(table, 'tea cosy')).toBeNull()
    expect(marginsFor(table, 'tea cosy')).toEqual(marginsAllRound(inches(3)))
  })
})
