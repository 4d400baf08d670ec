// "2 skeins": a scenario of the trade worked by hand. A key says 2 skeins of a hand-dyed thread of 5 yd, 2 strands, 28 over two: the need
// is above 4.572 and up to 9.144 m. (a) On 36 over two, from 8 m put-ups: × 14/18, 3.556 to 7.112 m, 1 put-up. (b) On 25 over two:
// × 14/12.5, 5.121 to 10.241 m, plan 2 (1 might do).
import { describe, expect, it } from 'vitest'
import { pitchUm } from '#lib/quantity/count'
import { parseThreadLength } from '#lib/quantity/thread-length'
import { putUpRange, putUpsFor, rescaleStated } from '#lib/thread/put-ups'

const sixStrands = (text: string) => (parseThreadLength(text, 'm') as number) * 6
const overTwo = (threads: number) => pitchUm({ threads, perUm: 25_400 }, 2)
const onCloth = (threads: number) =>
  rescaleStated({
    hundredths: 200,
    putUpStrandTenths: sixStrands('5 yd'),
    chartPitchUm: overTwo(28),
    yourPitchUm: overTwo(threads),
    chartStrands: 2,
    yourStrands: 2,
  })
const metres = (strandTenths: number) => (strandTenths / 6 / 10_000).toFixed(3)

describe('"2 skeins"', () => {
  it.each([
    [28, '4.572', '9.144'],
    [36, '3.556', '7.112'],
    [25, '5.121', '10.241'],
  ])('on %i over two is above %s and up to %s m of six strands', (threads, least, most) => {
    const { leastStrandTenths, strandTenths } = onCloth(threads)
    expect([metres(leastStrandTenths), metres(strandTenths)]).toEqual([least, most])
  })

  it('is one put-up of 8 m on 36 over two', () => expect(putUpsFor(onCloth(36).strandTenths, sixStrands('8 m'))).toBe(1))

  it('is planned as two of 8 m on 25 over two, where one might do', () => {
    expect(putUpsFor(onCloth(25).strandTenths, sixStrands('8 m'))).toBe(2)
    expect(putUpRange(onCloth(25), sixStrands('8 m'))).toEqual({ fewest: 1, most: 2 })
    expect(putUpRange(onCloth(36), sixStrands('8 m'))).toEqual({ fewest: 1, most: 1 })
  })
})
