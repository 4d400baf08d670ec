'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { removeFeedToken, renewFeedToken } from '#lib/db/planning/days/calendar-feed'
import { feedOwnerSchema } from './schema'

/** Give a calendar an address, or another one. */
export async function renewFeedAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = feedOwnerSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await renewFeedToken(input.data.ownerId)
  if (!result.ok) return { status: 'refused', message: say('This owner is not there any more. Load the page again.'), values }
  revalidatePath('/calendar')
  return { status: 'done' }
}

export async function removeFeedAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = feedOwnerSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  await removeFeedToken(input.data.ownerId)
  revalidatePath('/calendar')
  return { status: 'done', message: say('The address is answered no more.') }
}
