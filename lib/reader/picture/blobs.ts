import type { Grey } from './grey'

/** Dark pixels that touch (corners too): its box, right and bottom beyond the last pixel, and how many they are. */
export type Blob = { left: number; top: number; right: number; bottom: number; pixels: number }

/** What is darker than `shade`, in pieces that touch. Runs of each row are joined to those above they touch: O(pixels). */
export function blobsOf({ width, height, data }: Grey, shade: number): Blob[] {
  const blobs: Blob[] = []
  const parents: number[] = []
  const rootOf = (at: number): number => {
    let root = at
    while (parents[root] !== root) root = parents[root] as number
    let here = at
    while (parents[here] !== root) {
      const next = parents[here] as number
      parents[here] = root
      here = next
    }
    return root
  }
  let above: { from: number; to: number; blob: number }[] = []
  for (let y = 0; y < height; y++) {
    const runs: typeof above = []
    const row = y * width
    let first = 0
    for (let x = 0; x < width; x++) {
      if ((data[row + x] as number) >= shade) continue
      const from = x
      while (x < width && (data[row + x] as number) < shade) x++
      let blob = -1
      while (first < above.length && (above[first] as { to: number }).to < from) first++
      for (let at = first; at < above.length; at++) {
        const run = above[at] as (typeof above)[number]
        if (run.from > x) break
        const root = rootOf(run.blob)
        if (blob < 0) blob = root
        else if (blob !== root) {
          const [into, gone] = [blobs[blob] as Blob, blobs[root] as Blob]
          into.left = Math.min(into.left, gone.left)
          into.top = Math.min(into.top, gone.top)
          into.right = Math.max(into.right, gone.right)
          into.bottom = Math.max(into.bottom, gone.bottom)
          into.pixels += gone.pixels
          parents[root] = blob
        }
      }
      if (blob < 0) {
        blob = blobs.length
        parents.push(blob)
        blobs.push({ left: from, top: y, right: x, bottom: y + 1, pixels: 0 })
      }
      const into = blobs[blob] as Blob
      into.left = Math.min(into.left, from)
      into.right = Math.max(into.right, x)
      into.bottom = y + 1
      into.pixels += x - from
      runs.push({ from, to: x, blob })
    }
    above = runs
  }
  return blobs.filter((_, at) => parents[at] === at)
}

/** What may be a letter or figure by its size and shape. */
export function letterLike(blobs: readonly Blob[], page: { width: number; height: number }): Blob[] {
  const most = Math.max(page.width, page.height) / 12
  return blobs.filter(({ left, right, top, bottom, pixels }) => {
    const [wide, high] = [right - left, bottom - top]
    return high >= 6 && high <= most && wide <= high * 2.2 && wide >= high * 0.12 && pixels >= wide * high * 0.12
  })
}

/**
 * About how high the capitals and digits of a picture's text are, in pixels: the height that most letters share, the taller of two where
 * small letters share another. Null where there are too few to tell.
 */
export function capHeight(letters: readonly Blob[]): number | null {
  if (letters.length < 12) return null
  const heights = letters.map(({ top, bottom }) => bottom - top).sort((a, b) => a - b)
  // Seven tenths up: above the small letters, below headings.
  return heights[Math.floor(heights.length * 0.7)] as number
}
