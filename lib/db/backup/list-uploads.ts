import 'server-only'
import { readdir, stat } from 'node:fs/promises'
import path from 'node:path'
import { isUploadName, type KeptFolder, keptFolders } from '#lib/archive/part-name'
import type { BackupHolds } from '#lib/backup/check'
import { dataFolder } from '../data-folder'

export type Upload = { folder: KeptFolder; name: string; bytes: number }

export const sizeOf = (file: string): Promise<number> =>
  stat(file).then(
    ({ size }) => size,
    () => 0,
  )

export const uploadFolder = (folder: KeptFolder) => path.join(dataFolder(), 'uploads', folder)

/** The files that are kept, in order; what is half written or kept only for a day is none of them. */
export async function listUploads(): Promise<Upload[]> {
  const uploads: Upload[] = []
  for (const folder of keptFolders) {
    const names = await readdir(uploadFolder(folder)).catch(() => [] as string[])
    for (const name of names.sort())
      if (isUploadName(folder, name)) uploads.push({ folder, name, bytes: await sizeOf(path.join(uploadFolder(folder), name)) })
  }
  return uploads
}

/** A photo and the small one beside it are one. @param parts  uploads/photos/… */
export const countUploads = (parts: readonly string[]): Pick<BackupHolds, 'photos' | 'files'> => ({
  photos: parts.filter((name) => name.startsWith('uploads/photos/') && !name.endsWith('-thumb.webp')).length,
  files: parts.filter((name) => name.startsWith('uploads/files/')).length,
})
