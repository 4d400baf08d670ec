import 'server-only'
import type { PhotoLook } from '#lib/photo/photo-look'
import { isPhotoName, thumbName } from '#lib/photo/photo-name'
import { ok } from '#lib/result'
import { database } from '../client'
import { writeTo } from '../write-gate'
import { drawLater } from './draw-later'
import { readPhotoFile } from './photo-files'
import { lookOf } from './prepare-photo'

const namesAtOnce = 500
/** Looks drawn while a page waits: a few milliseconds each. */
const drawnAtOnce = 12
const drawnLater = 40

type NamedLook = PhotoLook & { file: string }

/**
 * How these photos look before they have arrived, by their names. Of those nobody looked at yet (an old collection, one brought back) a few
 * are looked at now and the others in the background: a photo left out of the answer is shown without.
 */
export async function readLooks(files: Iterable<string | null>): Promise<ReadonlyMap<string, PhotoLook>> {
  const names = [...new Set(files)].filter((file) => file !== null && isPhotoName(file)) as string[]
  const looks = new Map<string, PhotoLook>()
  for (let from = 0; from < names.length; from += namesAtOnce) {
    const rows = await database().prisma.photoLook.findMany({ where: { file: { in: names.slice(from, from + namesAtOnce) } } })
    for (const { file, ...look } of rows) looks.set(file, look)
  }
  const unknown = names.filter((name) => !looks.has(name))
  for (const { file, ...look } of await drawLooks(unknown.slice(0, drawnAtOnce))) looks.set(file, look)
  for (let from = drawnAtOnce; from < unknown.length; from += drawnLater) {
    const some = unknown.slice(from, from + drawnLater)
    drawLater(`looks ${some[0]}`, () => drawLooks(some))
  }
  return looks
}

/** Look at these photos and keep what they look like. One that is not there or does not read is left out. */
async function drawLooks(files: readonly string[]): Promise<NamedLook[]> {
  const looks: NamedLook[] = []
  for (const file of files) {
    const [full, thumb] = [await readPhotoFile(file), await readPhotoFile(thumbName(file))]
    const look = full && (await lookOf(full, thumb ?? full).catch(() => null))
    if (look) looks.push({ file, ...look })
  }
  await keepLooks(looks)
  return looks
}

/**
 * Keep how photos look. It goes through the gate as every write, and past `write`: whoever may change nothing may look at photos too.
 * A page is shown without it, so what cannot be written just now (no room, somebody in the way) is no trouble: it is drawn again.
 */
export async function keepLooks(looks: readonly NamedLook[]): Promise<void> {
  if (looks.length === 0) return
  await writeTo(database(), async ({ tx }) => {
    const known = await tx.photoLook.findMany({ where: { file: { in: looks.map(({ file }) => file) } }, select: { file: true } })
    const there = new Set(known.map(({ file }) => file))
    await tx.photoLook.createMany({ data: looks.filter(({ file }) => !there.has(file)) })
    return ok(null)
  }).catch(() => {})
}

/** Forget how a photo looked that is no more. */
export async function forgetLook(file: string): Promise<void> {
  await writeTo(database(), async ({ tx }) => ok(await tx.photoLook.deleteMany({ where: { file } })))
}
