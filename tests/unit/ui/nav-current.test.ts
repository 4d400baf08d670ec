import { describe, expect, it } from 'vitest'
import { findCurrentMark } from '../../../app/_ui/nav-current'

describe('findCurrentMark', () => {
  it('marks the very page as the page', () => {
    expect(findCurrentMark('/charts', '/charts')).toBe('page')
    expect(findCurrentMark('/', '/')).toBe('page')
  })

  it('marks a screen while a page below it is open', () => {
    expect(findCurrentMark('/places/t2/1', '/places')).toBe('true')
  })

  it('does not take a longer word for a page below', () => {
    expect(findCurrentMark('/charts-old', '/charts')).toBeUndefined()
  })

  it('does not mark home for every other page', () => {
    expect(findCurrentMark('/charts', '/')).toBeUndefined()
  })
})
