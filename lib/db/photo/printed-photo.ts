import 'server-only'
import sharp from 'sharp'
import { findPhoto } from './photo-files'

/** Enough for a picture of a few centimetres on paper. */
const printedSidePx = 640

/** A photo as paper takes it, a small JPEG; null where it is not there or does not read. */
export async function printedPhoto(name: string): Promise<Uint8Array | null> {
  const bytes = await findPhoto(name)
  if (bytes === null) return null
  return sharp(bytes)
    .resize({ width: printedSidePx, height: printedSidePx, fit: 'inside', withoutEnlargement: true })
    .flatten({ background: '#ffffff' })
    .jpeg({ quality: 78 })
    .toBuffer()
    .catch(() => null)
}
