import type { Bend } from './find-bend'
import { blankGrey, type Grey } from './grey'

/**
 * Draw a picture anew, each new pixel taken from where `from` says it was, between the four there; white where that is outside.
 *
 * @param from  Writes the place in the old picture, in pixels, into `place`.
 */
export function warped(
  grey: Grey,
  size: { width: number; height: number },
  from: (x: number, y: number, place: { x: number; y: number }) => void,
): Grey {
  const out = blankGrey(size.width, size.height)
  const { width, height, data } = grey
  const place = { x: 0, y: 0 }
  for (let y = 0; y < size.height; y++) {
    for (let x = 0; x < size.width; x++) {
      from(x, y, place)
      const left = Math.floor(place.x)
      const top = Math.floor(place.y)
      if (left < 0 || top < 0 || left >= width - 1 || top >= height - 1) continue
      const over = place.x - left
      const down = place.y - top
      const at = top * width + left
      const above = (data[at] as number) * (1 - over) + (data[at + 1] as number) * over
      const below = (data[at + width] as number) * (1 - over) + (data[at + width + 1] as number) * over
      out.data[y * size.width + x] = above * (1 - down) + below * down + 0.5
    }
  }
  return out
}

/**
 * Turn a picture by so many degrees the other way about, scaled, the sheet made as large as that takes; lines that are bent are drawn level.
 */
export function turnedBack(grey: Grey, degrees: number, scale = 1, bend: Bend | null = null): Grey {
  if (degrees === 0 && scale === 1 && !bend) return grey
  const radians = (degrees * Math.PI) / 180
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)]
  const width = Math.round((grey.width * Math.abs(cos) + grey.height * Math.abs(sin)) * scale)
  const height = Math.round((grey.width * Math.abs(sin) + grey.height * Math.abs(cos)) * scale)
  return warped(grey, { width, height }, (x, y, place) => {
    const across = (x - width / 2) / scale
    let down = (y - height / 2) / scale
    if (bend) down += bend(across, down)
    place.x = across * cos - down * sin + grey.width / 2
    place.y = across * sin + down * cos + grey.height / 2
  })
}
