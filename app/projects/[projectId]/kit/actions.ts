'use server'

import { revalidatePath } from 'next/cache'
import type { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { addKitItem } from '#lib/db/kit/add-kit-item'
import { editKitItem } from '#lib/db/kit/edit-kit-item'
import type { KitItemRefusal } from '#lib/db/kit/kit-item-refusal'
import { moveKitItem } from '#lib/db/kit/move-kit-item'
import { removeKitItem } from '#lib/db/kit/remove-kit-item'
import { setKitPrice } from '#lib/db/kit/set-kit-price'
import type { Result } from '#lib/result'
import { describeKitItemRefusal } from '#words/kit-item'
import { addKitItemSchema, editKitItemSchema, kitItemSchema, kitPriceSchema, moveKitItemSchema } from './schema'

/** Read a form by its schema, write, and answer it. */
async function answer<Input>(
  form: FormData,
  schema: z.ZodType<Input>,
  write: (input: Input) => Promise<Result<unknown, KitItemRefusal>>,
  done?: string,
): Promise<FormState> {
  const values = textFields(form)
  const input = schema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await write(input.data)
  if (!result.ok) return { status: 'refused', message: describeKitItemRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: done }
}

export async function addKitItemAction(_previous: FormState, form: FormData): Promise<FormState> {
  return answer(form, addKitItemSchema, addKitItem, say('Added.'))
}

export async function editKitItemAction(_previous: FormState, form: FormData): Promise<FormState> {
  return answer(form, editKitItemSchema, editKitItem, say('Saved.'))
}

export async function removeKitItemAction(_previous: FormState, form: FormData): Promise<FormState> {
  return answer(form, kitItemSchema, removeKitItem)
}

export async function moveKitItemAction(_previous: FormState, form: FormData): Promise<FormState> {
  return answer(form, moveKitItemSchema, moveKitItem)
}

export async function setKitPriceAction(_previous: FormState, form: FormData): Promise<FormState> {
  return answer(form, kitPriceSchema, setKitPrice, say('Saved.'))
}
