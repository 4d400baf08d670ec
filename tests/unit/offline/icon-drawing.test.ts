import { describe, expect, it } from 'vitest'
import { drawIcon, iconKinds } from '../../../app/_offline/icon-drawing'
import { manifest } from '../../../app/_offline/manifest'

describe('icons for a home screen', () => {
  it('are those the manifest names, in the sizes it says', () => {
    const { icons = [], shortcuts = [] } = manifest()
    const named = [...icons, ...shortcuts.flatMap(({ icons: own = [] }) => own)].filter(({ src }) => src.startsWith('/icons/'))
    expect(named.length).toBeGreaterThan(4)
    for (const { src, sizes, purpose } of named) {
      const kind = iconKinds[src.slice('/icons/'.length)]
      expect(`${kind?.widthPx}x${kind?.widthPx}`).toBe(sizes)
      expect(kind?.isMaskable).toBe(purpose === 'maskable')
    }
  })

  // W3C, Web Application Manifest, "Icon masks and safe zone": a circle of two fifths of the width about the middle is never cut off.
  it('keep the drawer within what no shape cuts off', () => {
    for (const kind of Object.values(iconKinds).filter(({ isMaskable }) => isMaskable)) {
      const [edge = 0, , side = 0] = (/viewBox="([^"]+)"/.exec(drawIcon(kind))?.[1] ?? '').split(' ').map(Number)
      expect(side).toBeCloseTo(32 - 2 * edge, 6)
      // The drawer is 28 by 22 about the middle, its line 2.5 wide.
      expect(Math.hypot(14 + 1.25, 11 + 1.25)).toBeLessThanOrEqual(0.4 * side)
    }
  })
})
