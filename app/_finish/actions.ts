'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { setFrame } from '#lib/db/project/set-frame'
import { getSettings } from '#lib/db/settings/settings'
import { frameRefusalWords } from '#words/finish'
import { frameFormSchema } from './schema'

/** Keep what frame a piece went into, and what else it cost. */
export async function setFrameAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const { lengthUnit } = await getSettings()
  const input = frameFormSchema(lengthUnit).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { otherCost: otherCostMinor, ...rest } = input.data
  const result = await setFrame({ ...rest, otherCostMinor })
  if (!result.ok) return { status: 'refused', message: frameRefusalWords(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept.') }
}
