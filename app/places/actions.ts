'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { returnCloth } from '#lib/db/cloth/move-cloth'
import { putBackNotion } from '#lib/db/notion/put-back-notion'
import { addPlace } from '#lib/db/place/add-place'
import { editPlace } from '#lib/db/place/edit-place'
import { movePlace } from '#lib/db/place/move-place'
import { removePlace } from '#lib/db/place/remove-place'
import { restorePlace } from '#lib/db/place/restore-place'
import { returnChart } from '#lib/db/place/return-chart'
import { returnBatch } from '#lib/db/stock/return-batch'
import {
  addPlaceSchema,
  editPlaceSchema,
  movePlaceSchema,
  putBackSchema,
  putUpsSchema,
  removePlaceSchema,
  restorePlaceSchema,
} from './schema'
import { describePlaceRefusal, describePutBackRefusal } from './words'

export async function addPlaceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = addPlaceSchema.safeParse(values)
  const putUps = putUpsSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  if (!putUps.success) return invalid(putUps.error, values)
  const result = await addPlace({ ...input.data, putUps: putUps.data })
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/places', 'layout')
  redirect(`/places/${result.value.id}`)
}

export async function editPlaceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = editPlaceSchema.safeParse(values)
  const putUps = putUpsSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  if (!putUps.success) return invalid(putUps.error, values)
  const result = await editPlace({ ...input.data, putUps: putUps.data })
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/places/${input.data.id}`)
}

export async function movePlaceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = movePlaceSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await movePlace(input.data)
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/places/${input.data.id}`)
}

export async function removePlaceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removePlaceSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removePlace(input.data)
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/places', 'layout')
  redirect(`/places${input.data.parentId === null ? '' : `/${input.data.parentId}`}?removed=${input.data.id}`)
}

export async function restorePlaceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = restorePlaceSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await restorePlace(input.data)
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/places/${input.data.id}`)
}

export async function putBackAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = putBackSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { noun, id, version } = input.data
  const result =
    noun === 'thread'
      ? await returnBatch({ batchId: id, version })
      : noun === 'cloth'
        ? await returnCloth({ id, version })
        : noun === 'notion'
          ? await putBackNotion({ id, version })
          : await returnChart({ id, version })
  if (!result.ok) return { status: 'refused', message: describePutBackRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
