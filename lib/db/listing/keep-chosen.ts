import 'server-only'
import { mkdir, readdir, readFile, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import { z } from 'zod'
import { readSelection, type Selection, selectionText } from '#lib/listing/selection'
import { dataFolder } from '../data-folder'
import { placeWhole } from '../file/place-whole'
import { newId } from '../new-id'

/** Long enough to look, think and do it; the record itself knows nothing of it. */
const keptMs = 24 * 60 * 60 * 1000
const idShape = /^[0-9a-f-]{36}$/

const folder = () => path.join(dataFolder(), 'uploads', 'chosen')

/** What somebody chose of a list: the list's choices as they stand in its address, and which of what they find. */
export type Chosen = { room: string; filter: string; selection: Selection }

const keptSchema = z.object({ room: z.string(), filter: z.string(), selection: z.string() })

/** Keep what was chosen for a day, so that an address can name it however many they are. */
export async function keepChosen({ room, filter, selection }: Chosen): Promise<{ chosenId: string }> {
  await mkdir(folder(), { recursive: true })
  await forgetOld()
  const chosenId = newId()
  const kept: z.infer<typeof keptSchema> = { room, filter, selection: selectionText(selection) }
  await placeWhole(path.join(folder(), chosenId), Buffer.from(JSON.stringify(kept)))
  return { chosenId }
}

/** @returns null when it is not there, or its day is over */
export async function readChosen(chosenId: string): Promise<Chosen | null> {
  if (!idShape.test(chosenId)) return null
  try {
    const { room, filter, selection } = keptSchema.parse(JSON.parse(await readFile(path.join(folder(), chosenId), 'utf8')))
    const read = readSelection(selection)
    return read && { room, filter, selection: read }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}

async function forgetOld(): Promise<void> {
  const now = Date.now()
  for (const name of await readdir(folder())) {
    const file = path.join(folder(), name)
    const kept = await stat(file).catch(() => null)
    if (kept && now - kept.mtimeMs > keptMs) await rm(file, { force: true })
  }
}
