import 'server-only'
import { fileTypeFromBuffer } from 'file-type'
import sharp from 'sharp'
import { type PhotoLook, thumbSidePx } from '#lib/photo/photo-look'
import { ok, type Result, refused } from '#lib/result'

export const mostPhotoBytes = 30 * 1024 * 1024
const longestSidePx = 2_000
const blurSidePx = 20
/** A WebP of one pixel that shows nothing. */
const clearPixel = 'UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA=='
/** More than any camera takes; a small file can claim far more. */
const mostPixels = 120_000_000

export type PhotoRefusal =
  | { kind: 'photo-too-large'; bytes: number; mostBytes: number }
  | { kind: 'photo-heic' }
  | { kind: 'not-a-photo'; found: string | null }
  | { kind: 'photo-unreadable' }

export type PreparedPhoto = { full: Uint8Array; thumb: Uint8Array; thumbAvif: Uint8Array; look: PhotoLook }

const readable = new Set(['image/jpeg', 'image/png', 'image/webp'])
const phoneFormats = new Set(['image/heic', 'image/heif', 'image/heic-sequence', 'image/heif-sequence'])

/**
 * Make a photo fit to keep: turned upright, at most 2,000 px, and a thumbnail; both drawn anew as WebP, so that nothing else that was
 * in the file (place, camera, a second file) comes along. The thumbnail is drawn as AVIF too, which has some two thirds of the bytes. What it is goes by its bytes, never by its name.
 */
export async function preparePhoto(bytes: Uint8Array): Promise<Result<PreparedPhoto, PhotoRefusal>> {
  if (bytes.length > mostPhotoBytes) return refused({ kind: 'photo-too-large', bytes: bytes.length, mostBytes: mostPhotoBytes })
  const found = (await fileTypeFromBuffer(bytes))?.mime ?? null
  if (found !== null && phoneFormats.has(found)) return refused({ kind: 'photo-heic' })
  if (found === null || !readable.has(found)) return refused({ kind: 'not-a-photo', found })
  try {
    const full = await drawn(bytes, longestSidePx, 82)
    const thumb = await drawn(full, thumbSidePx, 76)
    return ok({ full, thumb, thumbAvif: await drawAvif(thumb), look: await lookOf(full, thumb) })
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

/**
 * The small one of a photo once more, as AVIF. At the least effort it takes some 40 ms; at the next but one four times that, for 4 % of the
 * bytes.
 */
export const drawAvif = async (thumb: Uint8Array): Promise<Uint8Array> => sharp(thumb).avif({ quality: 50, effort: 0 }).toBuffer()

/** What is shown of a photo before it has arrived. @throws where the bytes are no picture */
export async function lookOf(full: Uint8Array, thumb: Uint8Array): Promise<PhotoLook> {
  const { width, height } = await sharp(full, { limitInputPixels: mostPixels }).metadata()
  const small = sharp(thumb).resize({ width: blurSidePx, height: blurSidePx, fit: 'inside', withoutEnlargement: true })
  const [bytes, { isOpaque }] = await Promise.all([
    small.clone().webp({ quality: 40, effort: 0 }).toBuffer(),
    sharp(thumb).stats(),
  ])
  return { widthPx: width, heightPx: height, blurBase64: isOpaque ? bytes.toString('base64') : clearPixel }
}
