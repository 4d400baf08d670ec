import { describe, expect, it } from 'vitest'
import { findTheme } from '../../../app/_ui/theme'

describe('findTheme', () => {
  it('knows light and dark, and follows the device for anything else a cookie may hold', () => {
    expect(findTheme('dark')).toBe('dark')
    expect(findTheme('light')).toBe('light')
    expect(findTheme('"><script>')).toBeNull()
    expect(findTheme(undefined)).toBeNull()
  })
})
