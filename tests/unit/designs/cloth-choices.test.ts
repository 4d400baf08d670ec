import { describe, expect, it } from 'vitest'
import { finishingMargins } from '#lib/cloth/margins'
import { settingsSchema } from '#lib/settings/settings'
import { clothHref, readClothAddress } from '../../../app/designs/[designId]/cloth/choices'
import { readFrameAddress } from '../../../app/designs/[designId]/frame/choices'

const settings = settingsSchema.parse({})
const inch = 25_400

describe('what the address of a design’s cloth asks', () => {
  it('is as in Settings and on the chart when it says nothing', () => {
    const { choices, finishing, wrong, hasOwnMargins, drum } = readClothAddress({}, settings)
    expect(choices).toEqual({
      margins: finishingMargins.framed,
      over: null,
      motifs: { across: 1, down: 1, gapThreads: 0 },
      count: null,
      pieceId: null,
    })
    expect([finishing, wrong, hasOwnMargins, drum]).toEqual(['framed', [], false, null])
  })

  it('takes a finishing, and each margin otherwise', () => {
    const { choices, finishing, hasOwnMargins } = readClothAddress(
      { finishing: 'Bell Pull', top: '4 1/2', left: '5 cm' },
      settings,
    )
    expect(finishing).toBe('bell pull')
    expect(hasOwnMargins).toBe(true)
    expect(choices.margins).toEqual({ leftUm: 50_000, rightUm: 2 * inch, topUm: 4.5 * inch, bottomUm: 3 * inch })
  })

  it('takes motifs, a count and a drum by what it measures across', () => {
    const { choices, drum } = readClothAddress(
      { across: '3', down: '2', gap: '11', count: '34 x 31', over: '1', drumAcross: '4', drumHigh: '3' },
      settings,
    )
    expect(choices).toMatchObject({ motifs: { across: 3, down: 2, gapThreads: 11 }, over: 1 })
    expect(choices.count).toMatchObject({ ends: { threads: 34 }, picks: { threads: 31 } })
    // 4 × π in.
    expect(drum).toEqual({ roundUm: 319_186, heightUm: 3 * inch })
  })

  it('answers each thing that does not read with a sentence, and keeps what stood', () => {
    const { choices, finishing, wrong } = readClothAddress(
      { finishing: 'tea cosy', left: 'wide', right: '30', across: '0', gap: '1.5', count: 'fine', drumRound: '-1', over: '3' },
      settings,
    )
    expect(finishing).toBe('framed')
    expect(choices).toMatchObject({
      margins: finishingMargins.framed,
      motifs: { across: 1, gapThreads: 0 },
      count: null,
      over: null,
    })
    expect(wrong).toEqual([
      '“tea cosy” is no way of finishing here; framed stands.',
      'Margin left: “wide” is no width; 3 in stands.',
      'Margin right: “30” is no width; 3 in stands.',
      '“fine” is no count. Write 36, 34 x 31 or 110 per 10 cm.',
      '“0” is no number of motifs across; write 1 to 100.',
      '“1.5” is no number of threads between motifs; write 0 to 2,000.',
      '“-1” does not read as what the drum measures once round.',
    ])
  })

  it('is kept in its links, but for what they change', () => {
    const said = { finishing: 'ornament', top: '4' }
    expect(clothHref('d1', said, { over: '1', top: '' })).toBe('/designs/d1/cloth?finishing=ornament&over=1')
    expect(clothHref('d1', {})).toBe('/designs/d1/cloth')
  })
})

describe('what the address of a design’s frame asks', () => {
  it('reads an opening and the plain cloth seen', () => {
    expect(readFrameAddress({}, settings).choices).toEqual({ opening: null, seenUm: 0.75 * inch, over: null, pieceId: null })
    expect(readFrameAddress({ opening: '5 x 7', seen: '1/2', over: '2' }, settings)).toMatchObject({
      choices: { opening: { widthUm: 5 * inch, heightUm: 7 * inch }, seenUm: inch / 2, over: 2 },
      wrong: [],
    })
  })

  it('answers what does not read with a sentence', () => {
    const { choices, wrong } = readFrameAddress({ opening: 'large', seen: 'some' }, settings)
    expect(choices).toMatchObject({ opening: null, seenUm: 0.75 * inch })
    expect(wrong).toEqual([
      '“large” is no size of an opening. Write 5 x 7 or 13 × 18 cm.',
      '“some” is no width of cloth; ¾ in stands.',
    ])
    expect(readFrameAddress({ opening: '9 x 9 yd' }, settings).choices.opening).toBeNull()
  })
})
