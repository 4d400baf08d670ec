import { describe, expect, it } from 'vitest'
import { misfit, nextLabels, type OwnPattern, patternsInside } from '#lib/place/own-patterns'
import type { PlaceKind } from '#lib/place/place'

const cabinets: OwnPattern = { text: 'T[2-4] > .[1-5] > -[01-40]', kinds: ['cabinet', 'drawer', 'compartment'], insideId: 'room' }
const racks: OwnPattern = { text: 'R[10-90 by 10]', kinds: ['rack'], insideId: 'room' }
const own = [cabinets, racks]
const room = { id: 'room', label: 'Kitting room' }
const t2 = { id: 't2', label: 'T2' }
const t21 = { id: 't21', label: 'T2.1' }

const labels = (parent: { id: string; label: string } | null, taken: string[] = []) =>
  nextLabels(own, parent, (label) => taken.includes(label)).map(({ label, kind }) => [label, kind])

describe('the shop’s own patterns', () => {
  it('go on inside the place they begin in, and inside what was labelled by them', () => {
    expect(labels(room, ['T2', 'T3'])).toEqual([
      ['T4', 'cabinet'],
      ['R10', 'rack'],
    ])
    expect(labels(t2, ['T2.1'])).toEqual([['T2.2', 'drawer']])
    expect(labels(t21)).toEqual([['T2.1-01', 'compartment']])
    // The innermost has nothing inside it, and other places have no pattern.
    expect(labels({ id: 'c', label: 'T2.1-01' })).toEqual([])
    expect(labels({ id: 'box', label: 'Box 4' })).toEqual([])
    expect(labels(null)).toEqual([])
  })

  it('propose nothing once all their labels are taken', () => {
    expect(labels(t2, ['T2.1', 'T2.2', 'T2.3', 'T2.4', 'T2.5'])).toEqual([])
  })

  it('pass over one that does not read', () => {
    expect(patternsInside([{ ...racks, text: 'R[10-' }], room)).toEqual([])
  })

  it('tell of a label that does not fit, only among places of its kind', () => {
    const told = (label: string, kind: PlaceKind, parent: typeof room | null) => misfit(own, { label, kind }, parent)
    expect(told('T2.1', 'drawer', t2)).toBeNull()
    expect(told('T2.9', 'drawer', t2)).toBe(cabinets.text)
    expect(told('T3.1', 'drawer', t2)).toBe(cabinets.text)
    expect(told('Tin', 'box', t2)).toBeNull()
    expect(told('R15', 'rack', room)).toBe(racks.text)
    expect(told('R20', 'rack', room)).toBeNull()
    expect(told('R15', 'rack', null)).toBeNull()
  })
})
