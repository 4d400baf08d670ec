import 'server-only'
import { fileTypeFromBuffer } from 'file-type'
import sharp from 'sharp'
import { ok, type Result, refused } from '#lib/result'

export const mostPhotoBytes = 30 * 1024 * 1024
const longestSidePx = 2_000
const thumbSidePx = 480
/** More than any camera takes; a small file can claim far more. */
const mostPixels = 120_000_000

export type PhotoRefusal =
  | { kind: 'photo-too-large'; bytes: number; mostBytes: number }
  | { kind: 'photo-heic' }
  | { kind: 'not-a-photo'; found: string | null }
  | { kind: 'photo-unreadable' }

export type PreparedPhoto = { full: Uint8Array; thumb: Uint8Array }

const readable = new Set(['image/jpeg', 'image/png', 'image/webp'])
const phoneFormats = new Set(['image/heic', 'image/heif', 'image/heic-sequence', 'image/heif-sequence'])

/**
 * Make a photo fit to keep: turned upright, at most 2,000 px, and a thumbnail; both drawn anew as WebP, so that nothing else that was
 * in the file (place, camera, a second file) comes along. What it is goes by its bytes, never by its name.
 */
export async function preparePhoto(bytes: Uint8Array): Promise<Result<PreparedPhoto, PhotoRefusal>> {
  if (bytes.length > mostPhotoBytes) return refused({ kind: 'photo-too-large', bytes: bytes.length, mostBytes: mostPhotoBytes })
  const found = (await fileTypeFromBuffer(bytes))?.mime ?? null
  if (found !== null && phoneFormats.has(found)) return refused({ kind: 'photo-heic' })
  if (found === null || !readable.has(found)) return refused({ kind: 'not-a-photo', found })
  try {
    const full = await drawn(bytes, longestSidePx, 82)
    return ok({ full, thumb: await drawn(full, thumbSidePx, 76) })
  } catch {
    return refused({ kind: 'photo-unreadable' })
  }
}

const drawn = (bytes: Uint8Array, sidePx: number, quality: number): Promise<Uint8Array> =>
  sharp(bytes, { limitInputPixels: mostPixels })
    .autoOrient()
    .resize({ width: sidePx, height: sidePx, fit: 'inside', withoutEnlargement: true })
    .webp({ quality })
    .toBuffer()
