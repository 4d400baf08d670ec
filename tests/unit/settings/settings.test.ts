import { describe, expect, it } from 'vitest'
import { finishingMargins, marginsAllRound } from '#lib/cloth/margins'
import { addFinishing, removeFinishing, withMargins } from '#lib/settings/own-finishings'
import { mostOwnFinishings, settingsSchema } from '#lib/settings/settings'

const inch = 25_400
const needleBook = { name: 'Needle book', margins: marginsAllRound(inch) }

describe('settings as they were stored', () => {
  it('start from the margins that are usual', () => {
    const settings = settingsSchema.parse({})
    expect(settings).toMatchObject({ finishing: 'framed', ownFinishings: [], margins: finishingMargins })
  })

  it('fall back way of finishing by way of finishing', () => {
    const { margins } = settingsSchema.parse({ margins: { ornament: marginsAllRound(inch), pillow: { leftUm: -1 } } })
    expect(margins.ornament).toEqual(marginsAllRound(inch))
    expect(margins.pillow).toEqual(finishingMargins.pillow)
    expect(margins.drum).toEqual(finishingMargins.drum)
  })

  it('keep what reads of one’s own ways of finishing, each name once and none that is always there', () => {
    const stored = [needleBook, { ...needleBook, name: 'needle BOOK' }, { name: 'Framed', margins: marginsAllRound(0) }, 7]
    expect(settingsSchema.parse({ ownFinishings: stored }).ownFinishings).toEqual([needleBook])
    expect(settingsSchema.parse({ ownFinishings: 'none' }).ownFinishings).toEqual([])
  })

  it('go by framing where the way of finishing they named is gone', () => {
    expect(settingsSchema.parse({ finishing: 'Needle book', ownFinishings: [needleBook] }).finishing).toBe('Needle book')
    expect(settingsSchema.parse({ finishing: 'Needle book' }).finishing).toBe('framed')
  })
})

describe('one’s own ways of finishing', () => {
  const settings = settingsSchema.parse({ ownFinishings: [needleBook] })

  it('are added by a name that is not taken', () => {
    const added = addFinishing(settings, 'Table mat', marginsAllRound(2 * inch))
    expect(added.ok && added.value.ownFinishings.map(({ name }) => name)).toEqual(['Needle book', 'Table mat'])
    for (const name of ['needle book', ' Framed'])
      expect(addFinishing(settings, name, marginsAllRound(0))).toMatchObject({ ok: false, error: { kind: 'name-taken' } })
  })

  it('are only so many', () => {
    const full = Array.from({ length: mostOwnFinishings }, (_, at) => ({ ...needleBook, name: `Mat ${at}` }))
    const refusal = addFinishing({ ...settings, ownFinishings: full }, 'One more', marginsAllRound(0))
    expect(refusal).toMatchObject({ ok: false, error: { kind: 'too-many' } })
  })

  it('can be taken away, those always there cannot', () => {
    const removed = removeFinishing(settings, 'needle book')
    expect(removed.ok && removed.value.ownFinishings).toEqual([])
    expect(removeFinishing(settings, 'framed')).toMatchObject({ ok: false, error: { kind: 'not-yours' } })
  })

  it('have their margins changed as any other', () => {
    expect(withMargins(settings, 'needle book', marginsAllRound(0)).ownFinishings[0]?.margins).toEqual(marginsAllRound(0))
    expect(withMargins(settings, 'pillow', marginsAllRound(0)).margins.pillow).toEqual(marginsAllRound(0))
    expect(withMargins(settings, 'tea cosy', marginsAllRound(0))).toBe(settings)
  })
})
