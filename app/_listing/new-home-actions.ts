'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import { idText } from '#forms/fields'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { applyNewHome } from '#lib/db/new-home/apply-new-home'
import { undoNewHome } from '#lib/db/new-home/undo-new-home'
import { findPlaceByLabel } from '#lib/db/place/queries'
import { getViewer } from '#viewer/viewer'
import { chosenThings } from './chosen-things'
import { describeNewHomeRefusal, describeNewHomeUndoRefusal, homedRooms } from './new-home-words'

const applySchema = z.object({
  room: z.enum(['cloth', 'notions']),
  chosen: z.string().max(64),
  home: z.string().max(200),
  fingerprint: z.string().min(1).max(100),
  who: z.string().trim().max(200).default(''),
})

export async function applyNewHomeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = applySchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { room, chosen, home, fingerprint, who } = input.data
  const { ownerIds, settings } = await getViewer()
  const [place, kept] = await Promise.all([
    findPlaceByLabel(home),
    chosenThings(room, chosen, { ownerIds, unit: settings.lengthUnit }),
  ])
  if (!place) return { status: 'refused', message: say('No place is labelled {home}.', { home }), values }
  if (!kept) return { status: 'refused', message: say('What was chosen is no longer kept. Choose again.'), values }
  const result = await applyNewHome({
    ...{ noun: homedRooms()[room].noun, ids: kept.things.map(({ id }) => id), toPlaceId: place.id },
    ...{ what: say('New home {place}', { place: place.label }), fingerprint, who: who || null },
  })
  if (!result.ok) return { status: 'refused', message: describeNewHomeRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/${room}/bulk/done/${result.value.bulkEditId}`)
}

export async function undoNewHomeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = z.object({ bulkEditId: idText }).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await undoNewHome(input.data)
  if (!result.ok) return { status: 'refused', message: describeNewHomeUndoRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
