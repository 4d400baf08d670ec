import 'server-only'
import { mkdir, readdir, rename, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import { calendarDay, isDay } from '#lib/quantity/day'
import { dataFolder } from '../data-folder'

const folder = () => path.join(dataFolder(), 'uploads', 'set-aside')

/**
 * Put files of the data folder aside, into a folder of the day, from where they can be had back by hand. One that is gone by now is no
 * error: two may have asked.
 *
 * @param parts  their names in the data folder: `uploads/photos/…`
 */
export async function setAside(parts: readonly string[], at: Date): Promise<void> {
  for (const part of parts) {
    const from = path.resolve(dataFolder(), part)
    if (!from.startsWith(`${dataFolder()}${path.sep}`)) throw new RangeError(`setAside: ${JSON.stringify(part)}`)
    const to = path.join(folder(), calendarDay(at), part.replace(/^uploads\//, ''))
    await mkdir(path.dirname(to), { recursive: true })
    await rename(from, to).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'ENOENT') throw error
    })
  }
}

export type SetAside = { day: string; files: number; bytes: number }

/** What lies aside, by the day it was put there, newest first. */
export async function listSetAside(): Promise<SetAside[]> {
  const days = (await readdir(folder()).catch(() => [] as string[])).filter(isDay).sort().reverse()
  return Promise.all(days.map(readDay))
}

async function readDay(day: string): Promise<SetAside> {
  const entries = await readdir(path.join(folder(), day), { recursive: true, withFileTypes: true }).catch(() => [])
  const sizes = await Promise.all(
    entries.filter((entry) => entry.isFile()).map((entry) => stat(path.join(entry.parentPath, entry.name)).catch(() => null)),
  )
  return { day, files: sizes.length, bytes: sizes.reduce((sum, size) => sum + (size?.size ?? 0), 0) }
}

/** Take what was set aside on a day off the disk for good. @returns false where nothing was */
export async function removeSetAside(day: string): Promise<boolean> {
  if (!isDay(day)) return false
  const there = path.join(folder(), day)
  if ((await stat(there).catch(() => null)) === null) return false
  await rm(there, { recursive: true, force: true })
  return true
}
