import 'server-only'
import { mkdir, readFile, rm } from 'node:fs/promises'
import path from 'node:path'
import { dataFolder } from '../data-folder'
import { newId } from '../new-id'
import { placeWhole } from './place-whole'
import { endingOf, type KeptMime } from './prepare-file'

const nameShape = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\.(?:pdf|jpg|png|webp)$/

const folder = () => path.join(dataFolder(), 'uploads', 'files')

/**
 * Put a file into the data folder as it came, whole under another name first, so that nobody ever reads half of it.
 *
 * @returns its name there, to be written to its row; if that write is refused, call `eraseFile`.
 */
export async function storeFile(bytes: Uint8Array, mime: KeptMime): Promise<string> {
  const name = `${newId()}.${endingOf[mime]}`
  await mkdir(folder(), { recursive: true })
  await placeWhole(path.join(folder(), name), bytes)
  return name
}

/** Take a file that no row came to name off the disk again. */
export async function eraseFile(name: string): Promise<void> {
  if (!nameShape.test(name)) throw new RangeError(`eraseFile: ${JSON.stringify(name)}`)
  await rm(path.join(folder(), name), { force: true })
}

/** The bytes of a file; null when the name is not one of ours or the file is not there. */
export async function readStoredFile(name: string): Promise<Uint8Array<ArrayBuffer> | null> {
  if (!nameShape.test(name)) return null
  try {
    return new Uint8Array(await readFile(path.join(folder(), name)))
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}
