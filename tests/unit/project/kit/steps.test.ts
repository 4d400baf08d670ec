import { describe, expect, it } from 'vitest'
import { nextStep, progressOf, stateOfStep } from '#lib/project/kit/steps'

const counted = { reserved: 0, pulled: 0, cut: 0, packed: 0, checked: 0, sealed: 0 }

describe('how far a batch of kits is', () => {
  it('takes what is packed as pulled, cut and reserved, whatever was written down', () => {
    expect(progressOf(13, { ...counted, packed: 5 }).done).toEqual({ ...counted, reserved: 5, pulled: 5, cut: 5, packed: 5 })
  })

  it('does not take cut thread as pulled', () => {
    expect(progressOf(13, { ...counted, cut: 13 }).done).toEqual({ ...counted, cut: 13 })
  })

  it('counts no more than there are', () => {
    expect(progressOf(13, { ...counted, sealed: 14 }).done.sealed).toBe(13)
  })

  it('names the first step that is not done for all, and none once all are sealed', () => {
    expect(nextStep(progressOf(13, counted))).toBe('reserved')
    expect(nextStep(progressOf(13, { ...counted, reserved: 13, pulled: 12 }))).toBe('pulled')
    expect(nextStep(progressOf(13, { ...counted, packed: 13, checked: 3 }))).toBe('checked')
    expect(nextStep(progressOf(13, { ...counted, sealed: 13 }))).toBeNull()
  })

  it('is not begun, begun or done', () => {
    const progress = progressOf(13, { ...counted, pulled: 13, cut: 2 })
    expect([stateOfStep(progress, 'pulled'), stateOfStep(progress, 'cut'), stateOfStep(progress, 'packed')]).toEqual([
      'done',
      'begun',
      'not begun',
    ])
  })
})
