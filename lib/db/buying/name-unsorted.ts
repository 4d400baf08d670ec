import 'server-only'
import { ok, type Result } from '#lib/result'
import { ensurePlace } from '../place/ensure-place'
import { write } from '../write'
import { unsortedKey } from './home-of'

/** Say once where thread goes that is bought and has no home yet: a place by its label, made when there is none; null: nowhere. */
export function nameUnsorted(label: string | null): Promise<Result<null, never>> {
  return write<null, never>(async (writing) => {
    const { tx } = writing
    if (label === null) {
      await tx.setting.deleteMany({ where: { key: unsortedKey } })
      return ok(null)
    }
    const valueJson = JSON.stringify({ placeId: await ensurePlace(writing, label) })
    await tx.setting.upsert({
      where: { key: unsortedKey },
      create: { key: unsortedKey, valueJson },
      update: { valueJson, version: { increment: 1 } },
    })
    return ok(null)
  })
}
