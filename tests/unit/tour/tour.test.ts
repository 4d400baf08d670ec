import { describe, expect, it } from 'vitest'
import { errands } from '../../../app/_tour/errands'
import { findTourCookie, readTour, tourBegun, tourCookieLine, tourValue } from '../../../app/_tour/tour-state'

/** Whether a step is done at this address. */
const isDoneAt = (errand: number, step: number, address: string): boolean => {
  const { pathname, searchParams } = new URL(address, 'http://larder')
  const isDone = errands()[errand]?.steps[step]?.isDone
  return typeof isDone === 'function' && isDone({ path: pathname, query: searchParams })
}

describe('the first errands', () => {
  it.each([
    [0, 0, '/?q=snow', true],
    [0, 0, '/', false],
    [0, 0, '/?q=%20', false],
    [0, 0, '/charts?q=snow', false],
    [0, 1, '/places/p1', true],
    [0, 1, '/places', false],
    [0, 1, '/places/new', false],
    [1, 0, '/charts?stitchableNow=1', true],
    [1, 0, '/charts', false],
    [1, 1, '/designs/d1', true],
    [1, 1, '/designs/d1/lists/new', false],
    [2, 0, '/projects', true],
    [2, 1, '/projects/j1', true],
    [2, 1, '/projects/rotation', false],
    [2, 2, '/projects/j1/finish', true],
    [2, 2, '/projects/j1', false],
  ])('errand %i, step %i at %s: %s', (errand, step, address, expected) => {
    expect(isDoneAt(errand, step, address)).toBe(expected)
  })

  it('are not begun by going where they begin', () => {
    for (const [at, { steps }] of errands().entries()) expect(isDoneAt(at, 0, steps[0]?.from.href ?? '')).toBe(false)
  })
})

describe('how far they are, as a device keeps it', () => {
  it('is read as it was written', () => {
    for (const state of [tourBegun, { errand: 2, step: 3, finishedBefore: 41, isLeft: true }, { ...tourBegun, step: 2 }])
      expect(readTour(tourValue(state))).toEqual(state)
    expect(tourCookieLine(null)).toContain('max-age=0')
    expect(findTourCookie(`larder-theme=dark; ${tourCookieLine(tourBegun)}`)).toBe(tourValue(tourBegun))
    expect(findTourCookie('my-larder-tour=where.0..on')).toBeUndefined()
  })

  it.each([undefined, '', 'where', 'where.9..on', 'nothing.0..on', 'where.0..off', 'where.-1..on', 'where.0.x.on'])(
    'is nothing where the cookie says %j',
    (cookie) => {
      expect(readTour(cookie)).toBeNull()
    },
  )
})
