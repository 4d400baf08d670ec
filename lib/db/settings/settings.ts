import 'server-only'
import { type Settings, settingsSchema } from '#lib/settings/settings'
import { database } from '../client'
import { write } from '../write'

const key = 'settings'

export async function getSettings(): Promise<Settings> {
  const row = await database().prisma.setting.findUnique({ where: { key } })
  return settingsSchema.parse(row ? JSON.parse(row.valueJson) : {})
}

/** Keep these settings; every answer is worked out anew with them. */
export async function saveSettings(settings: Settings): Promise<void> {
  const valueJson = JSON.stringify(settingsSchema.parse(settings))
  await write(async ({ tx, touch }) => {
    await tx.setting.upsert({
      where: { key },
      create: { key, valueJson },
      update: { valueJson, version: { increment: 1 } },
    })
    touch('setting', key)
    return { ok: true, value: null }
  })
}
