import 'server-only'
import type { Result } from '#lib/result'
import { keepPhoto, removePhoto } from './photo-files'
import { keepLooks } from './photo-looks'
import type { PreparedPhoto } from './prepare-photo'

/**
 * Keep a photo, then write the row that names it. Where that is refused or fails, the photo goes again: a row never names a file that
 * is not there, and at worst, when the machine stops in between, a file is left that no row names. How it looks is kept once the row
 * is there; where that does not come about, whoever first asks for it draws it.
 */
export async function withPhoto<T, E>(
  photo: PreparedPhoto | null,
  write: (photoFile: string | null) => Promise<Result<T, E>>,
): Promise<Result<T, E>> {
  if (photo === null) return write(null)
  const name = await keepPhoto(photo)
  try {
    const result = await write(name)
    if (result.ok) await keepLooks([{ file: name, ...photo.look }])
    else await removePhoto(name)
    return result
  } catch (error) {
    await removePhoto(name)
    throw error
  }
}
