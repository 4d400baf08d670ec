import 'server-only'
import { mkdir, open, readFile, rename, rm } from 'node:fs/promises'
import path from 'node:path'
import { z } from 'zod'
import { usualKeeping } from '#lib/backup/rotation'
import { hourShape, usualHour } from '#lib/backup/schedule'
import { dataFolder } from '../data-folder'

const most = (count: number) => z.int().min(1).max(count)

/**
 * How backups are made on this machine. Kept beside the database, not in it: a collection that is restored, or moved to another machine,
 * must not bring the old machine's folders along.
 */
export const backupSettingsSchema = z.object({
  isScheduled: z.boolean().catch(true),
  hour: z.string().regex(hourShape).catch(usualHour),
  /** Where they lie; null: the folder `backups` in the data folder. */
  folder: z.string().min(1).max(1_000).nullable().catch(null),
  keeping: z.object({ days: most(366), weeks: most(260), months: most(240) }).catch({ ...usualKeeping }),
})

export type BackupSettings = z.infer<typeof backupSettingsSchema>

const settingsFile = () => path.join(dataFolder(), 'backup-settings.json')

export async function getBackupSettings(): Promise<BackupSettings> {
  return backupSettingsSchema.parse((await readJson(settingsFile())) ?? {})
}

export const writeBackupSettings = (settings: BackupSettings): Promise<void> => writeJson(settingsFile(), settings)

/** The file's JSON; null where there is none or it does not read. */
export async function readJson(file: string): Promise<unknown> {
  try {
    return JSON.parse(await readFile(file, 'utf8'))
  } catch (error) {
    if (error instanceof SyntaxError || (error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}

/** Written beside and put in place whole. */
export async function writeJson(file: string, value: unknown): Promise<void> {
  await mkdir(path.dirname(file), { recursive: true })
  const draft = `${file}.${process.pid}-${crypto.randomUUID().slice(0, 8)}.part`
  try {
    const handle = await open(draft, 'w')
    try {
      await handle.writeFile(`${JSON.stringify(value, null, 2)}\n`)
      await handle.sync()
    } finally {
      await handle.close()
    }
    await rename(draft, file)
  } catch (error) {
    await rm(draft, { force: true }).catch(() => {})
    throw error
  }
}
