import { fileTypeFromBuffer } from 'file-type'
import sharp from 'sharp'
import { ok, type Result, refused } from '#lib/result'
import type { PageReading, ReadingRefusal } from './page-reading'
import type { ReaderDesk } from './parts-clock'
import type { Grey } from './picture/grey'
import { letterReader } from './recognise'
import { mostPixels, straighten } from './straighten'

const coverSidePx = 2_000

const readable = new Set(['image/jpeg', 'image/png', 'image/webp'])
const phoneFormats = new Set(['image/heic', 'image/heif', 'image/heic-sequence', 'image/heif-sequence'])

/** Read a photograph or a scan of one page. */
export async function readPicture(
  bytes: Uint8Array,
  { root, clock, tell }: ReaderDesk,
): Promise<Result<Pick<PageReading, 'pages' | 'cover' | 'straightened' | 'wasPhotographed'>, ReadingRefusal>> {
  tell({ step: 'opening' })
  const found = (await fileTypeFromBuffer(bytes))?.mime ?? null
  if (found !== null && phoneFormats.has(found)) return refused({ kind: 'photo-heic' })
  if (found === null || !readable.has(found)) return refused({ kind: 'not-a-photo', found })
  tell({ step: 'straightening', page: 1, pages: 1 })
  const straight = await clock.time('straightening', () => straighten(bytes))
  if (!straight) return refused({ kind: 'photo-unreadable' })
  tell({ step: 'reading', page: 1, pages: 1 })
  const letters = letterReader(root)
  const page = await clock.time('reading', () => letters.read(straight))
  await letters.end()
  tell({ step: 'cover' })
  const cover = await clock.time('cover', () => coverOf(bytes))
  const straightened = await clock.time('cover', () => drawnGrey(straight.grey))
  return ok({ pages: [page], cover, straightened, wasPhotographed: true })
}

async function drawnGrey({ data, width, height }: Grey): Promise<Uint8Array> {
  const webp = await sharp(data, { raw: { width, height, channels: 1 } })
    .resize({ width: coverSidePx, height: coverSidePx, fit: 'inside', withoutEnlargement: true })
    .webp({ quality: 70 })
    .toBuffer()
  return new Uint8Array(webp)
}

/** A picture drawn anew as WebP, upright and no larger than it is kept; null where it cannot be. */
export async function coverOf(picture: Uint8Array): Promise<Uint8Array | null> {
  try {
    const webp = await sharp(picture, { limitInputPixels: mostPixels })
      .autoOrient()
      .resize({ width: coverSidePx, height: coverSidePx, fit: 'inside', withoutEnlargement: true })
      .webp({ quality: 82 })
      .toBuffer()
    return new Uint8Array(webp)
  } catch {
    return null
  }
}
