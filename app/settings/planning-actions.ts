'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { requireRight } from '#lib/db/access/right'
import { removeTimeAway } from '#lib/db/planning/days/remove-time-away'
import { saveTimeAway } from '#lib/db/planning/days/save-time-away'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { timeAwayRefusalWords } from '#words/time-away'
import { planningFormSchema, removeTimeAwaySchema, timeAwayFormSchema } from './planning-schema'

/** Keep when a week begins, what counts as untouched, and what finishing and caution take. */
export async function savePlanningAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = textFields(form)
  const input = planningFormSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const settings = await getSettings()
  await saveSettings({ ...settings, planning: { ...settings.planning, ...input.data } })
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept.') }
}

/** Add a time away, or say one otherwise. */
export async function saveTimeAwayAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = timeAwayFormSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { ownerId, id, version, ...said } = input.data
  const result = await saveTimeAway(
    id !== undefined ? { ...said, id, ...(version !== undefined && { version }) } : { ...said, ownerId },
  )
  if (!result.ok) return { status: 'refused', message: timeAwayRefusalWords(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept.') }
}

export async function removeTimeAwayAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeTimeAwaySchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeTimeAway(input.data.id)
  if (!result.ok) return { status: 'refused', message: timeAwayRefusalWords(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
