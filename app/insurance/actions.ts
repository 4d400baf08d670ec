'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { valuesFormSchema } from './schema'

/** Keep what one of each class costs where the thing has no price, and what is dear. */
export async function saveValuesAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = valuesFormSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { dear, ...replacement } = input.data
  const settings = await getSettings()
  await saveSettings({ ...settings, replacement, dearMinor: dear ?? settings.dearMinor })
  revalidatePath('/insurance')
  return { status: 'done', message: say('Kept.') }
}
