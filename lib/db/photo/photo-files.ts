import 'server-only'
import { mkdir, readFile, rm } from 'node:fs/promises'
import path from 'node:path'
import { avifThumbName, isPhotoFile, isPhotoName, photoOfFile, thumbName } from '#lib/photo/photo-name'
import { database } from '../client'
import { dataFolder } from '../data-folder'
import { placeWhole } from '../file/place-whole'
import { newId } from '../new-id'
import { ownersSeenBy } from '../sight/sighted-client'
import type { PreparedPhoto } from './prepare-photo'

const folder = () => path.join(dataFolder(), 'uploads', 'photos')

/**
 * Keep a photo and its thumbnails in the data folder, each written whole under another name first, so that nobody ever reads half of it.
 *
 * @returns the photo's name, to be written to its row; if that write is refused, call `removePhoto`.
 */
export async function keepPhoto(photo: Pick<PreparedPhoto, 'full' | 'thumb' | 'thumbAvif'>): Promise<string> {
  const name = `${newId()}.webp`
  await mkdir(folder(), { recursive: true })
  try {
    await place(avifThumbName(name), photo.thumbAvif)
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
  if (!isPhotoName(name)) throw new RangeError(`keepThumb: ${JSON.stringify(name)}`)
  await place(thumbName(name), thumb)
}

/** Put the small one as AVIF beside its photo. */
export async function keepAvifThumb(name: string, thumb: Uint8Array): Promise<void> {
  if (!isPhotoName(name)) throw new RangeError(`keepAvifThumb: ${JSON.stringify(name)}`)
  await place(avifThumbName(name), thumb)
}

async function place(name: string, bytes: Uint8Array): Promise<void> {
  await placeWhole(path.join(folder(), name), bytes)
}

/** Take a photo that no row came to name off the disk again. */
export async function removePhoto(name: string): Promise<void> {
  if (!isPhotoName(name)) throw new RangeError(`removePhoto: ${JSON.stringify(name)}`)
  await Promise.all([name, thumbName(name), avifThumbName(name)].map((file) => rm(path.join(folder(), file), { force: true })))
}

/** Whether something that is seen shows a photo. To those who see everything, every photo is. */
async function isShown(name: string): Promise<boolean> {
  const { prisma } = database()
  if (ownersSeenBy(prisma) === null) return true
  const photo = photoOfFile(name)
  const where = { coverFile: photo }
  if ((await prisma.chart.count({ where })) > 0) return true
  const photoOf = { where: { photoFile: photo } }
  for (const { count } of [prisma.project, prisma.clothPiece, prisma.notion, prisma.workEntry] as {
    count: (asked: object) => Promise<number>
  }[])
    if ((await count(photoOf)) > 0) return true
  return false
}

/** The bytes of a photo or thumbnail; null when the name is not one of ours, the file is not there, or nothing that is seen shows it. */
export async function findPhoto(name: string): Promise<Uint8Array<ArrayBuffer> | null> {
  if (!isPhotoFile(name) || !(await isShown(name))) return null
  return readPhotoFile(name)
}

/** As `findPhoto`, whoever asks: for what is made of a photo and shown to nobody yet. */
export async function readPhotoFile(name: string): Promise<Uint8Array<ArrayBuffer> | null> {
  if (!isPhotoFile(name)) return null
  try {
    return new Uint8Array(await readFile(path.join(folder(), name)))
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}
