'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { reportNow, reportThingNow } from '#lib/db/missing/report-now'
import { type FoundWhere, foundMissing, giveUpMissing } from '#lib/db/missing/settle-missing'
import { describeMissingRefusal } from '#words/missing'
import { meantPlace } from '../_places/meant-place'
import { foundSchema, giveUpSchema, reportSchema } from './schema'

export async function reportMissingAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = reportSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { noun, id, wholePutUps, takesPart, ...said } = input.data
  const result =
    noun === 'thread'
      ? await reportNow({ ...said, batchId: id, wholePutUps, takesPart, lastSeenPlaceId: null })
      : await reportThingNow({ ...said, noun, id })
  if (!result.ok) return { status: 'refused', message: describeMissingRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/missing/${result.value.missingId}`)
}

export async function foundAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = foundSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { missingId, version, placeLabel, only, who, note } = input.data
  const where: FoundWhere = input.data.where === 'place' ? { kind: 'place', label: placeLabel ?? '' } : { kind: input.data.where }
  const found = only === undefined ? undefined : { wholePutUps: only, takesPart: false }
  const result = await foundMissing({ missingId, version, where, found, who, note })
  if (!result.ok) return { status: 'refused', message: describeMissingRefusal(result.error), values }
  revalidatePath('/', 'layout')
  const { said } = where.kind === 'place' ? await meantPlace(where.label) : { said: '' }
  const message = result.value.isAll ? say('Found, and on record where it is.') : say('Noted. The rest is still looked for.')
  return { status: 'done', message: `${message}${said}` }
}

export async function giveUpAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = giveUpSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await giveUpMissing(input.data)
  if (!result.ok) return { status: 'refused', message: describeMissingRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Written off, with the reason.') }
}
