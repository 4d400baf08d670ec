'use server'

import { revalidatePath } from 'next/cache'
import { z } from 'zod'
import { say } from '#language/say'
import { type Dropped, dropThing, putAsItLay } from '#lib/db/place/drop-thing'
import { getViewer } from '#viewer/viewer'
import { describeDropRefusal } from './words'

const id = z.string().min(1).max(60)
const dropSchema = z.strictObject({
  dragged: z.strictObject({ noun: z.enum(['chart', 'design', 'thread']), id }),
  toPlaceId: id,
  fromPlaceId: id.nullable(),
})
const laySchema = z.strictObject({
  noun: z.enum(['chart', 'batch']),
  id,
  homePlaceId: id.nullable(),
  currentPlaceId: id.nullable(),
})

export type DropAnswer = { kind: 'done'; dropped: Dropped } | { kind: 'refused'; message: string }

const unread = (): DropAnswer => ({ kind: 'refused', message: say('That could not be read. Load the page again.') })

/** Move what was dragged onto a place. */
export async function dropAction(asked: unknown): Promise<DropAnswer> {
  const input = dropSchema.safeParse(asked)
  if (!input.success) return unread()
  const { ownerIds } = await getViewer()
  const result = await dropThing({ ...input.data, ownerIds })
  if (!result.ok) return { kind: 'refused', message: describeDropRefusal(result.error) }
  revalidatePath('/', 'layout')
  return { kind: 'done', dropped: result.value }
}

/** Put it back as it lay; null when that is done, else why not. */
export async function undoDropAction(asked: unknown): Promise<string | null> {
  const input = laySchema.safeParse(asked)
  if (!input.success) return say('That could not be read. Load the page again.')
  const result = await putAsItLay(input.data)
  if (!result.ok) return describeDropRefusal(result.error)
  revalidatePath('/', 'layout')
  return null
}
