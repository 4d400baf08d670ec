'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { requireRight } from '#lib/db/access/right'
import { removeOccasion } from '#lib/db/planning/days/remove-occasion'
import { saveOccasion } from '#lib/db/planning/days/save-occasion'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { calendarDay } from '#words/date'
import { occasionRefusalWords } from '#words/occasion'
import { countryFormSchema, occasionFormSchema, removeOccasionSchema } from './occasion-schema'

/** Keep whose feasts and customary days are known. */
export async function saveCountryAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = textFields(form)
  const input = countryFormSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const settings = await getSettings()
  await saveSettings({ ...settings, planning: { ...settings.planning, ...input.data } })
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept.') }
}

/** Add a day of one's own, or say one otherwise. */
export async function saveOccasionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = occasionFormSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { ownerId, id, version, ...said } = input.data
  const what = { ...said, today: calendarDay(new Date()) }
  const result = await saveOccasion(
    id !== undefined ? { ...what, id, ...(version !== undefined && { version }) } : { ...what, ownerId },
  )
  if (!result.ok) return { status: 'refused', message: occasionRefusalWords(result.error), values }
  revalidatePath('/', 'layout')
  const { moved } = result.value
  return {
    status: 'done',
    message:
      moved > 0
        ? say('Kept. {moved, plural, one {# project} other {# projects}} due for it moved along.', { moved })
        : say('Kept.'),
  }
}

export async function removeOccasionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeOccasionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeOccasion(input.data.id)
  if (!result.ok) return { status: 'refused', message: occasionRefusalWords(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
