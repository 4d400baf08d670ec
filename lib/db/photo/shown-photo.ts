import 'server-only'
import { avifThumbName, photoOfFile, thumbName } from '#lib/photo/photo-name'
import { drawLater } from './draw-later'
import { findPhoto, keepAvifThumb, readPhotoFile } from './photo-files'
import { drawAvif } from './prepare-photo'

type ShownPhoto = { bytes: Uint8Array<ArrayBuffer>; mime: 'image/webp' | 'image/avif' }

/**
 * A photo as it is sent to a browser. Its small one is sent as AVIF where that is taken and there; where it is not there yet it is drawn for
 * the next who asks, and this one has the WebP.
 *
 * @param takesAvif  what the browser says it takes
 */
export async function findShownPhoto(name: string, takesAvif: boolean): Promise<ShownPhoto | null> {
  const photo = photoOfFile(name)
  if (name.endsWith('.avif') || (takesAvif && name === thumbName(photo))) {
    const avif = await findPhoto(avifThumbName(photo))
    if (avif) return { bytes: avif, mime: 'image/avif' }
    if (name.endsWith('.avif')) return null
  }
  const webp = await findPhoto(name)
  if (webp === null) return null
  if (takesAvif && name === thumbName(photo)) drawLater(`avif ${photo}`, () => addAvifThumb(photo))
  return { bytes: webp, mime: 'image/webp' }
}

async function addAvifThumb(photo: string): Promise<void> {
  const thumb = await readPhotoFile(thumbName(photo))
  if (thumb !== null) await keepAvifThumb(photo, await drawAvif(thumb))
}
