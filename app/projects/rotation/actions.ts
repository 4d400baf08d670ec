'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { joinRotation } from '#lib/db/planning/pace/join-rotation'
import { leaveRotation } from '#lib/db/planning/pace/leave-rotation'
import { moveInRotation } from '#lib/db/planning/pace/move-in-rotation'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { weekdaysOf } from '#lib/planning/pace/rotation'
import { weekdayOptions } from '#words/work'
import { memberSchema, moveSchema, ruleSchema } from './schema'

const gone = () => say('This project is not there any more, or not in the rotation. Load the page again.')

const answered = (isDone: boolean, values: Record<string, string>, message?: string): FormState => {
  if (!isDone) return { status: 'refused', message: gone(), values }
  revalidatePath('/', 'layout')
  return { status: 'done', ...(message && { message }) }
}

export async function joinRotationAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = memberSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answered((await joinRotation(input.data)).ok, values)
}

export async function setWeekdaysAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = memberSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const days = weekdayOptions()
    .filter(({ value }) => form.has(`day${value}`))
    .map(({ value }) => Number(value))
  return answered((await joinRotation({ ...input.data, weekdays: weekdaysOf(days) })).ok, values, say('Kept.'))
}

export async function leaveRotationAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = memberSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answered((await leaveRotation(input.data)).ok, values)
}

export async function moveInRotationAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = moveSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answered((await moveInRotation(input.data)).ok, values)
}

export async function saveRotationRuleAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = ruleSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const settings = await getSettings()
  await saveSettings({ ...settings, planning: { ...settings.planning, rotation: input.data } })
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept.') }
}
