import type { PageBox } from '#lib/chart/page-text/page-text'
import type { Blob } from './blobs'

/** Parts of one letter or sign: the dot of an i, the strokes of an equals sign. */
function joinedParts(blobs: readonly Blob[], capPx: number): PageBox[] {
  const byLeft = blobs.map(({ left, right, top, bottom }) => ({ left, right, top, bottom })).sort((a, b) => a.left - b.left)
  const joined: PageBox[] = []
  for (const box of byLeft) {
    let whole = box
    for (let at = joined.length - 1; at >= 0; at--) {
      const other = joined[at] as PageBox
      if (whole.left - other.left > capPx * 2.5) break
      const overlap = Math.min(whole.right, other.right) - Math.max(whole.left, other.left)
      const narrower = Math.min(whole.right - whole.left, other.right - other.left)
      const apart = Math.max(whole.top, other.top) - Math.min(whole.bottom, other.bottom)
      const high = Math.max(whole.bottom, other.bottom) - Math.min(whole.top, other.top)
      if (overlap < narrower * 0.5 || apart > capPx * 0.45 || high > capPx * 1.9) continue
      whole = {
        left: Math.min(whole.left, other.left),
        right: Math.max(whole.right, other.right),
        top: Math.min(whole.top, other.top),
        bottom: Math.max(whole.bottom, other.bottom),
      }
      joined.splice(at, 1)
    }
    joined.push(whole)
  }
  return joined
}

/**
 * Signs and letters that stand alone: as high as print is, and nothing close to their left or right. A symbol of a key, a count of strands.
 *
 * @param capPx  How high capitals are.
 */
export function aloneGlyphs(blobs: readonly Blob[], capPx: number): PageBox[] {
  const inked = blobs.filter(({ left, right, top, bottom, pixels }) => {
    const [wide, high] = [right - left, bottom - top]
    return pixels >= 8 && wide <= capPx * 3 && high <= capPx * 2.4 && (wide >= capPx * 0.08 || high >= capPx * 0.08)
  })
  const glyphs = joinedParts(inked, capPx).sort((a, b) => a.left - b.left)
  const widest = capPx * 3
  return glyphs.filter((glyph, at) => {
    const high = glyph.bottom - glyph.top
    const wide = glyph.right - glyph.left
    if (high < capPx * 0.45 || high > capPx * 1.7 || wide > capPx * 1.7 || wide < capPx * 0.1) return false
    const isBeside = (other: PageBox) => {
      const shared = Math.min(glyph.bottom, other.bottom) - Math.max(glyph.top, other.top)
      if (shared < -capPx * 0.1) return false
      const gap = Math.max(glyph.left, other.left) - Math.min(glyph.right, other.right)
      return gap < capPx * 0.55
    }
    for (let next = at + 1; next < glyphs.length && (glyphs[next] as PageBox).left < glyph.right + capPx; next++) {
      if (isBeside(glyphs[next] as PageBox)) return false
    }
    for (let before = at - 1; before >= 0 && (glyphs[before] as PageBox).left > glyph.left - widest - capPx; before--) {
      if (isBeside(glyphs[before] as PageBox)) return false
    }
    return true
  })
}
