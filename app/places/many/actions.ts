'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { addManyPlaces } from '#lib/db/place/add-many-places'
import { forgetLabelPattern, keepLabelPattern } from '#lib/db/settings/label-patterns'
import { forgetPatternSchema, manySchema } from './schema'
import { describeManyRefusal } from './words'

export async function addManyPlacesAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = manySchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { keeps, pattern, kinds, parentId } = input.data
  const result = await addManyPlaces({ pattern, kinds, parentId })
  if (!result.ok) return { status: 'refused', message: describeManyRefusal(result.error), values }
  const kept = keeps ? await keepLabelPattern({ text: pattern, kinds, insideId: parentId }) : null
  revalidatePath('/', 'layout')
  const left = kept && !kept.ok ? '&kept=no' : ''
  redirect(`/places/many?made=${result.value.made}&in=${parentId ?? ''}${left}`)
}

export async function forgetPatternAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = forgetPatternSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  await forgetLabelPattern(input.data)
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
