'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { mergePlace } from '#lib/db/place/merge-place'
import { splitPlace } from '#lib/db/place/split-place'
import { undoPlaceChange } from '#lib/db/place/undo-place-change'
import { mergePlaceSchema, splitChoice, splitPlaceSchema, undoPlaceChangeSchema } from './schema'
import { describePlaceRefusal } from './words'

export async function mergePlaceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = mergePlaceSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await mergePlace(input.data)
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/places/changes/${result.value.changeId}`)
}

export async function splitPlaceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = splitPlaceSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { id, version, way, ...place } = input.data
  const result = await splitPlace({ id, version, way, place, ...splitChoice(values) })
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/places/changes/${result.value.changeId}`)
}

export async function undoPlaceChangeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = undoPlaceChangeSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await undoPlaceChange(input.data)
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
