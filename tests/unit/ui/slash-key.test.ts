import { expect, it } from 'vitest'
import { isSlashOn, slashCookie } from '../../../app/_ui/slash-key'

it('takes a slash for a way to Find until the device says otherwise', () => {
  expect(isSlashOn('')).toBe(true)
  expect(isSlashOn('larder-theme=dark; larder-name=off')).toBe(true)
  expect(isSlashOn(`larder-theme=dark; ${slashCookie}=off`)).toBe(false)
})
