import 'server-only'
import { mkdir, readFile, rm } from 'node:fs/promises'
import path from 'node:path'
import { dataFolder } from '../data-folder'
import { placeWhole } from '../file/place-whole'
import { newId } from '../new-id'
import type { PreparedPhoto } from './prepare-photo'

const nameShape = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}(?:-thumb)?\.webp$/

const folder = () => path.join(dataFolder(), 'uploads', 'photos')

/** The name of the small one that is kept beside a photo. */
export const thumbName = (name: string): string => name.replace(/\.webp$/, '-thumb.webp')

/**
 * Keep a photo and its thumbnail in the data folder, each written whole under another name first, so that nobody ever reads half of it.
 *
 * @returns the photo's name, to be written to its row; if that write is refused, call `removePhoto`.
 */
export async function keepPhoto(photo: PreparedPhoto): Promise<string> {
  const name = `${newId()}.webp`
  await mkdir(folder(), { recursive: true })
  try {
    await place(thumbName(name), photo.thumb)
    await place(name, photo.full)
  } catch (error) {
    await removePhoto(name)
    throw error
  }
  return name
}

/** Put the small one of a photo that has none beside it. */
export async function keepThumb(name: string, thumb: Uint8Array): Promise<void> {
  if (!nameShape.test(name)) throw new RangeError(`keepThumb: ${JSON.stringify(name)}`)
  await place(thumbName(name), thumb)
}

async function place(name: string, bytes: Uint8Array): Promise<void> {
  await placeWhole(path.join(folder(), name), bytes)
}

/** Take a photo that no row came to name off the disk again. */
export async function removePhoto(name: string): Promise<void> {
  if (!nameShape.test(name)) throw new RangeError(`removePhoto: ${JSON.stringify(name)}`)
  await Promise.all([name, thumbName(name)].map((file) => rm(path.join(folder(), file), { force: true })))
}

/** The bytes of a photo or thumbnail; null when the name is not one of ours or the file is not there. */
export async function findPhoto(name: string): Promise<Uint8Array<ArrayBuffer> | null> {
  if (!nameShape.test(name)) return null
  try {
    return new Uint8Array(await readFile(path.join(folder(), name)))
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}
