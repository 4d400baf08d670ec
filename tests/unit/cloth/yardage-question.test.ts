import { describe, expect, it } from 'vitest'
import { settingsSchema } from '#lib/settings/settings'
import { readQuestion, yardageFields, yardageHref, yardageSchema } from '../../../app/cloth/yardage/question'
import { inches } from './cloth-pieces'

const settings = settingsSchema.parse({})
const read = (query: Record<string, unknown>) => readQuestion(yardageSchema.parse(query), settings)

describe('what the yardage screen is asked', () => {
  it('takes what is not said from the settings', () => {
    expect(read({})).toMatchObject({
      bolt: settings.bolt,
      finishing: { name: 'framed' },
      count: null,
      wrong: [],
      size: null,
      also: [],
    })
  })

  it('reads lengths in any unit, and a size or a design', () => {
    const { bolt, size } = read({ what: '10 x 12', width: '140 cm', step: '1/4 yd', selvedge: '3/4' })
    expect(bolt).toMatchObject({ widthUm: 1_400_000, stepUm: inches(9), selvedgeUm: inches(0.75) })
    expect(size).toEqual({ widthUm: inches(10), heightUm: inches(12) })
    expect(read({ what: 'Seven Lanterns' }).size).toBeNull()
  })

  it('says in a sentence what it cannot read, and goes by the settings there', () => {
    const { bolt, wrong } = read({ width: 'wide', step: '0', count: 'fine', also: '6 of 8 x 8; many' })
    expect(bolt).toEqual(settings.bolt)
    expect(wrong).toHaveLength(4)
    expect(wrong[0]).toBe('The bolt’s width is a length such as 55 in; “wide” is not.')
    expect(read({ selvedge: '40 cm', width: '60 cm' }).wrong).toEqual(['The two selvedges leave nothing of the bolt’s width.'])
  })

  it('reads other sizes for the same length', () => {
    expect(read({ also: '6 of 8 x 8; 2 10 x 30 cm' }).also).toEqual([
      { copies: 6, widthUm: inches(8), heightUm: inches(8) },
      { copies: 2, widthUm: 100_000, heightUm: 300_000 },
    ])
  })

  it('keeps only what was said in its address', () => {
    const query = yardageSchema.parse({ what: '10 x 10', kits: '12', spares: '', turn: 'either' })
    expect(query).toMatchObject({ kits: 12, spares: null, turn: 'yes' })
    expect(yardageFields(query)).toEqual({ what: '10 x 10', kits: '12' })
    expect(yardageHref(query, { what: '', design: 'd1' })).toBe('/cloth/yardage?design=d1&kits=12')
  })
})
