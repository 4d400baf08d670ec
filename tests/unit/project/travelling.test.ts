import { expect, it } from 'vitest'
import { isWithin } from '#lib/project/travelling'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'

it('takes along what goes into a size either way round', () => {
  const size = (width: number, height: number) => ({ widthUm: width * UM_PER_INCH, heightUm: height * UM_PER_INCH })
  const most = size(6, 8)
  expect(isWithin(size(6, 8), most)).toBe(true)
  expect(isWithin(size(8, 6), most)).toBe(true)
  expect(isWithin(size(6.01, 6.01), most)).toBe(false)
  expect(isWithin(size(5, 8.01), most)).toBe(false)
  // 84 stitches at 14 to the inch are six inches, whatever division makes of them.
  expect(isWithin({ widthUm: 84 * (UM_PER_INCH / 14), heightUm: UM_PER_INCH }, size(6, 6))).toBe(true)
})
