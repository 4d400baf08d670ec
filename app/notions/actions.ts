'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { addNotion } from '#lib/db/notion/add-notion'
import { countNotion } from '#lib/db/notion/count-notion'
import { editNotion } from '#lib/db/notion/edit-notion'
import { moveNotion } from '#lib/db/notion/move-notion'
import type { NotionRefusal } from '#lib/db/notion/notion-refusal'
import { putBackNotion } from '#lib/db/notion/put-back-notion'
import { removeNotion } from '#lib/db/notion/remove-notion'
import { restoreNotion } from '#lib/db/notion/restore-notion'
import { takeNotion } from '#lib/db/notion/take-notion'
import type { Result } from '#lib/result'
import { describeNotionRefusal } from '#words/notion'
import { meantPlace } from '../_places/meant-place'
import {
  addNotionSchema,
  countNotionSchema,
  editNotionSchema,
  moveNotionSchema,
  notionSchema,
  removeNotionSchema,
  takeNotionSchema,
} from './schema'

/** The answer to a write of a notion, for the form it came from. */
function answer(result: Result<unknown, NotionRefusal>, values: Record<string, string>, done: string): FormState {
  if (!result.ok) return { status: 'refused', message: describeNotionRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: done }
}

export async function addNotionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = addNotionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await addNotion(input.data)
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/notions/${result.value.id}`)
}

export async function editNotionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = editNotionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await editNotion(input.data)
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/notions/${input.data.id}`)
}

export async function moveNotionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = moveNotionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { placeLabel, ...rest } = input.data
  const result = await moveNotion({ ...rest, toPlaceLabel: placeLabel })
  const { label, said } = await meantPlace(placeLabel)
  return answer(result, values, say('It lies in {label} now.{said}', { label, said }))
}

export async function countNotionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = countNotionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await countNotion(input.data)
  return answer(result, values, result.ok ? say('There are {count} now.', { count: result.value.count }) : '')
}

/** What is taken may be a row of its own: on to its page. */
export async function takeNotionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = takeNotionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await takeNotion(input.data)
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/notions/${result.value.id}`)
}

/** Put back it may have been laid together with more of the same: on to where it is found. */
export async function putBackNotionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = notionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await putBackNotion(input.data)
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/notions/${result.value.id}`)
}

export async function removeNotionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeNotionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await removeNotion(input.data), values, say('It is off the list.'))
}

export async function restoreNotionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = notionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await restoreNotion(input.data), values, say('It is back on the list.'))
}
