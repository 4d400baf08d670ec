import sharp from 'sharp'
import type { Random } from '#seed/random'
import type { Picture } from './render'

type Point = readonly [number, number]

/** How a page was photographed; lengths as shares of the picture's width unless they say otherwise. */
export type Conditions = {
  /** Of the picture's longer side. */
  longerPx: number
  turnDegrees: number
  /** How far each corner is off, at most. */
  perspective: number
  /** Of the paper, as it bends up and down across. */
  curl: number
  blurPx: number
  /** Standard deviation, of 255. */
  noise: number
  /** How much less light the far corner has than the near one, 0 to 1. */
  unevenness: number
  /** How much of the light a shadow takes, 0 for none, and where its edge runs. */
  shadow: number
  paper: readonly [number, number, number]
  table: readonly [number, number, number]
  creases: number
  jpegQuality: number
  /** The picture lies on its side and says so in its EXIF, as a phone held the other way writes it. */
  isOnItsSide: boolean
}

/** The 3 × 3 matrix (row by row, the last 1) that takes each of four points to another: two linear equations a pair, by Gaussian elimination. */
function homography(from: readonly Point[], to: readonly Point[]): number[] {
  const rows = from.flatMap(([x, y], at) => {
    const [u, v] = to[at] as Point
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ]
  })
  for (let column = 0; column < 8; column++) {
    let best = column
    for (let row = column + 1; row < 8; row++)
      if (Math.abs((rows[row] as number[])[column] as number) > Math.abs((rows[best] as number[])[column] as number)) best = row
    const pivot = rows[best] as number[]
    rows[best] = rows[column] as number[]
    rows[column] = pivot
    for (let row = 0; row < 8; row++) {
      if (row === column) continue
      const other = rows[row] as number[]
      const factor = (other[column] as number) / (pivot[column] as number)
      for (let at = column; at < 9; at++) other[at] = (other[at] as number) - factor * (pivot[at] as number)
    }
  }
  return [...rows.map((row, at) => (row[8] as number) / (row[at] as number)), 1]
}

/**
 * Photograph a page that lies on a table: seen a little from the side, bent, in uneven light, folded, out of focus, with a grainy sensor, kept as
 * a JPEG. The same page, conditions and stream of chance give the same picture.
 */
export async function photograph(page: Picture, conditions: Conditions, random: Random): Promise<Uint8Array> {
  const { longerPx, turnDegrees, perspective, curl, noise, unevenness, shadow, paper, table } = conditions
  const isTall = page.height >= page.width
  const [width, height] = isTall
    ? [Math.round((longerPx * page.width) / page.height), longerPx]
    : [longerPx, Math.round((longerPx * page.height) / page.width)]
  const off = () => (random.next() * 2 - 1) * perspective * width
  const [sin, cos] = [Math.sin((turnDegrees * Math.PI) / 180), Math.cos((turnDegrees * Math.PI) / 180)]
  const corners = [
    [0, 0],
    [page.width, 0],
    [page.width, page.height],
    [0, page.height],
  ] as const
  // The page fills most of the picture, less when it is turned so far that its corners would be lost.
  const scale = (0.97 - Math.abs(sin) * 0.5) * Math.min(width / page.width, height / page.height)
  const placed = corners.map(([x, y]): Point => {
    const [dx, dy] = [(x - page.width / 2) * scale, (y - page.height / 2) * scale]
    return [width / 2 + dx * cos - dy * sin + off(), height / 2 + dx * sin + dy * cos + off()]
  })
  const back = homography(placed, corners)
  const [a, b, c, d, e, f, g, h] = back as [number, number, number, number, number, number, number, number]

  const lightAngle = random.next() * 2 * Math.PI
  const [lightX, lightY] = [Math.cos(lightAngle), Math.sin(lightAngle)]
  const shadowAngle = random.next() * 2 * Math.PI
  const [shadowX, shadowY] = [Math.cos(shadowAngle), Math.sin(shadowAngle)]
  const shadowAt = (random.next() - 0.3) * 0.5
  const softness = 0.01 + random.next() * 0.06
  const creases = Array.from({ length: conditions.creases }, (_, at) => ({
    isAcross: at % 2 === 0,
    at: (0.3 + random.next() * 0.4) * (at % 2 === 0 ? page.height : page.width),
    depth: 0.12 + random.next() * 0.2,
  }))
  const phase = random.next() * 6
  const grain = Array.from({ length: 4_096 }, () => random.normal(0, noise))
  const out = Buffer.alloc(width * height * 3)
  const { rgba } = page

  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const bent = y + curl * width * Math.sin((x / width) * 3.1 + phase)
      const w = g * x + h * bent + 1
      const sx = (a * x + b * bent + c) / w
      const sy = (d * x + e * bent + f) / w
      const [nx, ny] = [x / width - 0.5, y / height - 0.5]
      let light = 1 - unevenness * (0.5 + 0.7 * (nx * lightX + ny * lightY))
      if (shadow > 0) light *= 1 - shadow / (1 + Math.exp((shadowAt - (nx * shadowX + ny * shadowY)) / softness))
      const isPaper = sx >= 0 && sy >= 0 && sx < page.width - 1 && sy < page.height - 1
      if (isPaper) {
        for (const crease of creases) {
          const distance = (crease.isAcross ? sy : sx) - crease.at
          if (Math.abs(distance) < 9) light *= 1 - crease.depth * (1 - Math.abs(distance) / 9) * (distance < 0 ? 1 : -0.4)
        }
      }
      const [ix, iy] = [Math.floor(sx), Math.floor(sy)]
      const [fx, fy] = [sx - ix, sy - iy]
      const at = (y * width + x) * 3
      const grainAt = (x * 31 + y * 1_777 + ((x * y) >> 5)) & 4_095
      for (let channel = 0; channel < 3; channel++) {
        let value: number
        if (isPaper) {
          const from = (iy * page.width + ix) * 4 + channel
          const under = from + page.width * 4
          const sample =
            ((rgba[from] as number) * (1 - fx) + (rgba[from + 4] as number) * fx) * (1 - fy) +
            ((rgba[under] as number) * (1 - fx) + (rgba[under + 4] as number) * fx) * fy
          // Ink is never quite black, paper never quite white.
          value = (28 + sample * 0.87) * (paper[channel] as number)
        } else value = (table[channel] as number) * (1 + 0.06 * Math.sin(y / 7 + Math.sin(x / 90)))
        out[at + channel] = Math.max(0, Math.min(255, value * light + (grain[(grainAt + channel * 977) & 4_095] as number)))
      }
    }
  }
  let picture = sharp(out, { raw: { width, height, channels: 3 } })
  if (conditions.blurPx >= 0.3) picture = picture.blur(conditions.blurPx)
  const encoded = await picture.jpeg({ quality: conditions.jpegQuality }).toBuffer()
  if (!conditions.isOnItsSide) return new Uint8Array(encoded)
  return new Uint8Array(
    await sharp(encoded).rotate(-90).withMetadata({ orientation: 6 }).jpeg({ quality: conditions.jpegQuality }).toBuffer(),
  )
}

/** A third of the photographs of a half are easy, a third ordinary, a third hard: 0, 1 or 2. */
export type Hardness = 0 | 1 | 2

export function drawConditions(random: Random, hardness: Hardness): Conditions {
  const by = (values: readonly [number, number, number]): number => values[hardness]
  return {
    longerPx: random.int(1_700, 2_400),
    turnDegrees: (random.next() * 2 - 1) * by([1, 3, 7]),
    perspective: by([0.005, 0.015, 0.03]),
    curl: by([0, 0.003, 0.008]),
    blurPx: by([0.4, 0.8, 1.3]),
    noise: by([2, 5, 9]),
    unevenness: by([0.15, 0.3, 0.5]),
    shadow: hardness === 0 ? 0 : random.next() * 0.35,
    paper: random.pick([
      [1, 1, 1],
      [1, 0.97, 0.88],
      [0.96, 0.98, 1],
      [1, 0.94, 0.82],
    ] as const),
    table: random.pick([
      [110, 80, 55],
      [60, 60, 64],
      [176, 168, 150],
    ] as const),
    creases: hardness === 2 ? random.int(0, 2) : 0,
    jpegQuality: by([90, 80, 62]),
    isOnItsSide: random.chance(0.15),
  }
}
