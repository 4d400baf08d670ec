/** A cover is looked at in this many points each way, in grey. */
export const coverSide = 32
/** Waves taken each way, the constant one left out: 8 × 8 make 64 bits. */
const waves = 8

/** Covers that differ in no more bits than this are taken for one picture. */
export const nearCover = 14
/** With no more than this nothing else has to speak for it. */
export const sameCover = 6

/** cos((2x + 1)uπ / 2N) for u = 1…8 and every x. */
const cosines = Array.from({ length: waves }, (_, wave) =>
  Float64Array.from({ length: coverSide }, (_, x) => Math.cos(((2 * x + 1) * (wave + 1) * Math.PI) / (2 * coverSide))),
)

/**
 * What a picture looks like, in 16 hexadecimal digits: its slowest 8 × 8 waves (discrete cosine transform), each a bit that says whether it is
 * above the middle one. Brightness and contrast make no difference; another size, mild compression or a trimmed edge turn over a few bits;
 * another picture some 32 of the 64 (C. Zauner, Implementation and Benchmarking of Perceptual Image Hash Functions, 2010, section 3.1.1,
 * but for the constant wave, which says nothing here and is left out, and its row and column with it).
 *
 * @param grey  `coverSide` × `coverSide` points, row by row, 0 black to 255 white
 * @throws {RangeError} if there are not so many.
 */
export function hashOfGrey(grey: ArrayLike<number>): string {
  if (grey.length !== coverSide * coverSide) throw new RangeError(`hashOfGrey: ${grey.length} points`)
  const byRow = cosines.map((cosine) =>
    Float64Array.from({ length: coverSide }, (_, y) => {
      let sum = 0
      for (let x = 0; x < coverSide; x++) sum += (grey[y * coverSide + x] as number) * (cosine[x] as number)
      return sum
    }),
  )
  const strengths: number[] = []
  for (const down of cosines)
    for (const row of byRow) strengths.push(row.reduce((sum, value, y) => sum + value * (down[y] as number), 0))
  const sorted = strengths.slice().sort((a, b) => a - b)
  const middle = ((sorted[31] as number) + (sorted[32] as number)) / 2
  let digits = ''
  for (let at = 0; at < strengths.length; at += 4) {
    let digit = 0
    for (let bit = 0; bit < 4; bit++) digit = digit * 2 + Number((strengths[at + bit] as number) > middle)
    digits += digit.toString(16)
  }
  return digits
}

const isHash = (text: string): boolean => /^[0-9a-f]{16}$/u.test(text)

/** A hash as two whole numbers of 32 bits, to be held against many. @throws {RangeError} if it is none. */
export function hashWords(hash: string): [high: number, low: number] {
  if (!isHash(hash)) throw new RangeError(`hashWords: ${JSON.stringify(hash)}`)
  return [Number.parseInt(hash.slice(0, 8), 16) | 0, Number.parseInt(hash.slice(8), 16) | 0]
}

function bitsOf(word: number): number {
  let bits = word - ((word >>> 1) & 0x5555_5555)
  bits = (bits & 0x3333_3333) + ((bits >>> 2) & 0x3333_3333)
  return Math.imul((bits + (bits >>> 4)) & 0x0f0f_0f0f, 0x0101_0101) >>> 24
}

/** In how many of 64 bits two covers differ. */
export const wordsDistance = (a: readonly [number, number], b: readonly [number, number]): number =>
  bitsOf(a[0] ^ b[0]) + bitsOf(a[1] ^ b[1])

/** In how many of 64 bits two covers differ. @throws {RangeError} if one is no hash. */
export const hashDistance = (a: string, b: string): number => wordsDistance(hashWords(a), hashWords(b))
