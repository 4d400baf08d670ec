import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { coverSide, hashDistance, hashOfGrey, hashWords, nearCover, wordsDistance } from '#lib/chart/cover-hash'
import { coverHash, photoHashes } from '#lib/db/photo/cover-hash'
import { randomFrom } from './random-covers'

const grey = (shade: (x: number, y: number) => number) =>
  Array.from({ length: coverSide * coverSide }, (_, at) => shade(at % coverSide, Math.floor(at / coverSide)))

describe('a hash of points', () => {
  it('is the same whatever the brightness and contrast, and turned over when black and white are', () => {
    const shade = (x: number, y: number) => (x * 7 + y * y * 3) % 97
    const plain = hashOfGrey(grey(shade))
    expect(plain).toMatch(/^[0-9a-f]{16}$/)
    expect(hashOfGrey(grey((x, y) => 2 * shade(x, y) + 40))).toBe(plain)
    expect(hashDistance(plain, hashOfGrey(grey((x, y) => 255 - shade(x, y))))).toBe(64)
  })

  it('counts the bits that differ', () => {
    // 0xf differs from 0x0 in four bits, 0x8 from 0x0 in one.
    expect(hashDistance('0000000000000000', 'f000000000000008')).toBe(5)
    expect(hashDistance('ffffffffffffffff', '0000000000000000')).toBe(64)
    expect(wordsDistance(hashWords('80000000ffffffff'), hashWords('00000000fffffffe'))).toBe(2)
    expect(() => hashDistance('12', 'f000000000000008')).toThrow(RangeError)
    expect(() => hashOfGrey([1, 2])).toThrow(RangeError)
  })
})

describe('a cover', async () => {
  const covers = await Promise.all([1, 2, 3, 4, 5, 6].map((seed) => randomFrom(seed)))
  const hashes = await Promise.all(covers.map(async (cover) => (await coverHash(cover)) as string))
  const changed: [string, (cover: Buffer) => Promise<Buffer>][] = [
    ['smaller and saved badly', (cover) => sharp(cover).resize(200).jpeg({ quality: 50 }).toBuffer()],
    ['3 % trimmed off each edge', (cover) => sharp(cover).extract({ left: 18, top: 24, width: 564, height: 752 }).toBuffer()],
    ['a quarter brighter', (cover) => sharp(cover).modulate({ brightness: 1.25 }).jpeg().toBuffer()],
    ['out of focus', (cover) => sharp(cover).blur(3).toBuffer()],
  ]

  it.each(changed)('is near itself %s', async (_how, change) => {
    for (const [at, cover] of covers.entries()) {
      const hash = (await coverHash(await change(cover))) as string
      expect(hashDistance(hash, hashes[at] as string)).toBeLessThanOrEqual(nearCover)
    }
  })

  it('is far from another', () => {
    for (const [at, hash] of hashes.entries())
      for (const other of hashes.slice(0, at)) expect(hashDistance(hash, other)).toBeGreaterThan(nearCover + 4)
  })

  it('is found on a photo with some table round it', async () => {
    const [cover] = covers as [Buffer]
    const edges = { top: 90, bottom: 70, left: 80, right: 60 }
    const photo = await sharp(cover)
      .extend({ ...edges, background: '#8a6a4a' })
      .jpeg({ quality: 70 })
      .toBuffer()
    const seen = await photoHashes(photo)
    expect(Math.min(...seen.map((hash) => hashDistance(hash, hashes[0] as string)))).toBeLessThanOrEqual(nearCover)
    expect(Math.min(...seen.map((hash) => hashDistance(hash, hashes[1] as string)))).toBeGreaterThan(nearCover)
  })

  it('that is no picture has no hash', async () => {
    expect(await coverHash(new TextEncoder().encode('no picture'))).toBeNull()
    expect(await photoHashes(new Uint8Array())).toEqual([])
  })
})
