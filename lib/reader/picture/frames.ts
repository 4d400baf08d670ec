import { type Blob, blobsOf } from './blobs'
import type { Grey } from './grey'

/** A frame about one sign is so wide and high, in heights of capitals. */
const leastSide = 1.4
const mostSide = 4.5
/** Of its box, a frame's own line covers no more. */
const mostInk = 0.45

/**
 * White out, in place, small frames that hold a sign: boxes about the symbols of a key. A frame is told by what it holds; an empty one may be
 * a symbol itself.
 */
export function takeFrames(grey: Grey, capPx: number, inkShade: number): void {
  const blobs = blobsOf(grey, inkShade)
  const signs = blobs.filter(({ left, right, top, bottom }) => Math.max(right - left, bottom - top) > capPx * 0.35)
  for (const frame of blobs) {
    const [wide, high] = [frame.right - frame.left, frame.bottom - frame.top]
    if (Math.min(wide, high) < capPx * leastSide || Math.max(wide, high) > capPx * mostSide) continue
    if (frame.pixels > wide * high * mostInk || frame.pixels < (wide + high) * 1.5) continue
    const isInside = (sign: Blob) =>
      sign !== frame &&
      sign.left > frame.left + 1 &&
      sign.right < frame.right - 1 &&
      sign.top > frame.top + 1 &&
      sign.bottom < frame.bottom - 1
    if (signs.some(isInside)) clear(grey, frame, inkShade)
  }
}

/** What is dark and hangs together with the left edge of a blob, and the paler pixels about it. */
function clear({ width, height, data }: Grey, frame: Blob, shade: number): void {
  const taken: number[] = []
  const isTaken = new Set<number>()
  const take = (x: number, y: number) => {
    const at = y * width + x
    if (x < frame.left || y < frame.top || x >= frame.right || y >= frame.bottom) return
    if (isTaken.has(at) || (data[at] as number) >= shade) return
    isTaken.add(at)
    taken.push(at)
  }
  for (let y = frame.top; y < frame.bottom && taken.length === 0; y++) take(frame.left, y)
  for (let next = 0; next < taken.length; next++) {
    const [x, y] = [(taken[next] as number) % width, Math.floor((taken[next] as number) / width)]
    for (let down = -1; down <= 1; down++) for (let over = -1; over <= 1; over++) take(x + over, y + down)
  }
  const edge = 2
  for (const at of taken) {
    const [x, y] = [at % width, Math.floor(at / width)]
    for (let row = Math.max(0, y - edge); row <= Math.min(height - 1, y + edge); row++)
      data.fill(255, row * width + Math.max(0, x - edge), row * width + Math.min(width, x + edge + 1))
  }
}
