import { describe, expect, it } from 'vitest'
import { accepts, takesPictures, whichField } from '../../../app/_ui/which-field'

describe('whichField', () => {
  it('goes by the caret before it goes by what is near', () => {
    expect(
      whichField([
        { hasCaret: false, distance: 0 },
        { hasCaret: true, distance: -900 },
      ]),
    ).toBe(1)
  })

  it('takes the nearest of several, the first of two as near, and none of none', () => {
    const at = (distance: number) => ({ hasCaret: false, distance })
    expect(whichField([at(500), at(-20), at(30)])).toBe(1)
    expect(whichField([at(30), at(-30)])).toBe(0)
    expect(whichField([])).toBe(-1)
  })
})

describe('accepts', () => {
  const png = { type: 'image/png', name: 'image.png' }

  it('reads types, kinds of type and endings, as the HTML standard has them in `accept`', () => {
    expect(accepts('image/jpeg,image/png', png)).toBe(true)
    expect(accepts('image/*', png)).toBe(true)
    expect(accepts('.PNG', png)).toBe(true)
    expect(accepts('', png)).toBe(true)
    expect(accepts('image/jpeg', png)).toBe(false)
    expect(accepts('.pdf,application/pdf', png)).toBe(false)
    expect(accepts('image/*', { type: 'imagery/png', name: 'x' })).toBe(false)
  })

  it('knows fields that take pictures', () => {
    expect(takesPictures('.pdf,application/pdf,image/jpeg')).toBe(true)
    expect(takesPictures('.zip,application/zip')).toBe(false)
    expect(takesPictures(undefined)).toBe(false)
  })
})
