'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { movePart } from '#lib/db/planning/days/move-part'
import { removePart } from '#lib/db/planning/days/remove-part'
import { makeParts, type PartRefused, savePart } from '#lib/db/planning/days/save-part'
import { type TickPartRefused, tickPart } from '#lib/db/planning/days/tick-part'
import type { Result } from '#lib/result'
import { calendarDay } from '#words/date'
import { partRefusalWords } from '#words/parts'
import { makePartsSchema, movePartSchema, partSchema, savePartSchema, tickPartSchema } from './part-schema'

function answer(
  result: Result<unknown, PartRefused | TickPartRefused>,
  values: Record<string, string>,
  message?: string,
): FormState {
  if (!result.ok) return { status: 'refused', message: partRefusalWords(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', ...(message !== undefined && { message }) }
}

/** Add a part, or say one otherwise. */
export async function savePartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = savePartSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { projectId, id, version, ...said } = input.data
  const result = await savePart(
    id !== undefined ? { ...said, id, ...(version !== undefined && { version }) } : { ...said, projectId },
  )
  return answer(result, values)
}

/** Make parts by a rule: on the first of every month, every two weeks. */
export async function makePartsAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = makePartsSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { kind, from, count, ...said } = input.data
  const rule =
    kind === 'monthly'
      ? ({ kind, day: Number(from.slice(8)), from, count } as const)
      : ({ kind: 'days', days: kind === 'weekly' ? 7 : 14, from, count } as const)
  const result = await makeParts({ ...said, rule })
  return answer(result, values, say('{count, plural, one {# part} other {# parts}} added.', { count }))
}

/** A part is stitched today, or on the day given; without one it is not after all. */
export async function tickPartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = tickPartSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { id, version, doneOn } = input.data
  return answer(await tickPart({ id, ...(version !== undefined && { version }), doneOn, today: calendarDay(new Date()) }), values)
}

export async function movePartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = movePartSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await movePart(input.data), values)
}

export async function removePartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = partSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await removePart(input.data.id), values)
}
