import 'server-only'
import { mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises'
import path from 'node:path'
import { dataFolder } from '../data-folder'
import { placeWhole } from '../file/place-whole'
import { newId } from '../new-id'

const keptMs = 24 * 60 * 60 * 1000
const idShape = /^[0-9a-f-]{36}$/

const folder = () => path.join(dataFolder(), 'uploads', 'to-bring-in')

/** Keep an uploaded file for a day, for its preview and for bringing it in. */
export async function stageFile(fileName: string, bytes: Uint8Array): Promise<{ stagedId: string }> {
  await mkdir(folder(), { recursive: true })
  await forgetOldFiles()
  const stagedId = newId()
  const file = path.join(folder(), stagedId)
  try {
    await writeFile(`${file}.name`, fileName.slice(0, 200))
    await placeWhole(file, bytes)
  } catch (error) {
    await rm(`${file}.name`, { force: true }).catch(() => {})
    throw error
  }
  return { stagedId }
}

/** @returns null when there is no such file, or its day is over. */
export async function readStagedFile(stagedId: string): Promise<{ fileName: string; bytes: Uint8Array } | null> {
  if (!idShape.test(stagedId)) return null
  const file = path.join(folder(), stagedId)
  try {
    const [bytes, fileName] = await Promise.all([readFile(file), readFile(`${file}.name`, 'utf8')])
    return { fileName, bytes }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}

async function forgetOldFiles(): Promise<void> {
  const now = Date.now()
  for (const name of await readdir(folder())) {
    const file = path.join(folder(), name)
    const kept = await stat(file).catch(() => null)
    if (kept && now - kept.mtimeMs > keptMs) await rm(file, { force: true })
  }
}
