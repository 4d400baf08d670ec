import 'server-only'
import sharp from 'sharp'
import { coverSide, hashOfGrey } from '#lib/chart/cover-hash'

/** More than any camera takes; a small file can claim far more. */
const mostPixels = 120_000_000

/** Parts of a photo a cover may fill, of each side, when somebody held a phone over it. */
const framings = [1, 0.92, 0.84, 0.76]

type Region = { left: number; top: number; width: number; height: number }

async function hashIn(bytes: Uint8Array, region: Region | null): Promise<string> {
  const picture = sharp(bytes, { limitInputPixels: mostPixels }).autoOrient().flatten({ background: '#ffffff' })
  if (region) picture.extract(region)
  const grey = await picture.greyscale().resize(coverSide, coverSide, { fit: 'fill' }).raw().toBuffer()
  return hashOfGrey(grey)
}

/** What a cover looks like (lib/chart/cover-hash.ts); null when the bytes are no picture that can be read. */
export async function coverHash(bytes: Uint8Array): Promise<string | null> {
  try {
    return await hashIn(bytes, null)
  } catch {
    return null
  }
}

/**
 * The hashes a photo of a cover may have: of all of it and of its middle, for a photo has some table round the cover. A cover that is near
 * any of them may be meant. Empty when the bytes are no picture that can be read.
 */
export async function photoHashes(bytes: Uint8Array): Promise<string[]> {
  try {
    const small = await sharp(bytes, { limitInputPixels: mostPixels })
      .autoOrient()
      .resize({ width: 800, height: 800, fit: 'inside', withoutEnlargement: true })
      .png()
      .toBuffer({ resolveWithObject: true })
    const { width, height } = small.info
    const hashes: string[] = []
    for (const share of framings) {
      const [across, down] = [Math.max(1, Math.round(width * share)), Math.max(1, Math.round(height * share))]
      const region = { left: Math.floor((width - across) / 2), top: Math.floor((height - down) / 2), width: across, height: down }
      hashes.push(await hashIn(small.data, share === 1 ? null : region))
    }
    const trimmed = await sharp(small.data)
      .trim({ threshold: 40 })
      .png()
      .toBuffer()
      .catch(() => null)
    if (trimmed) hashes.push(await hashIn(trimmed, null))
    return [...new Set(hashes)]
  } catch {
    return []
  }
}
