'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { orderPlaces } from '#lib/db/place/order-places'
import { describePlaceRefusal } from '../words'

const parentId = z
  .string()
  .max(64)
  .transform((id) => (id === '' ? null : id))

const orderSchema = z.object({
  parentId,
  order: z
    .string()
    .max(400_000)
    .transform((text) => text.split(' ').filter((id) => id !== '')),
})

export async function orderPlacesAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = orderSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await orderPlaces({ parentId: input.data.parentId, placeIds: input.data.order })
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(input.data.parentId === null ? '/places' : `/places/${input.data.parentId}`)
}

export async function orderByLabelAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = z.object({ parentId }).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await orderPlaces({ parentId: input.data.parentId, placeIds: null })
  if (!result.ok) return { status: 'refused', message: describePlaceRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(input.data.parentId === null ? '/places' : `/places/${input.data.parentId}`)
}
