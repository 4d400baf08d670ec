'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { removeRule, saveRule } from '#lib/db/reorder/rules'
import { removeRuleSchema, saveRuleSchema } from './schema'
import { describeRuleRefusal } from './words'

export async function saveRuleAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = saveRuleSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await saveRule(input.data)
  if (!result.ok) return { status: 'refused', message: describeRuleRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/threads/${input.data.threadId}/reorder?owner=${input.data.ownerId}&saved=1`)
}

export async function removeRuleAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeRuleSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeRule(input.data)
  if (!result.ok) return { status: 'refused', message: describeRuleRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/threads/${input.data.threadId}/reorder?owner=${input.data.ownerId}`)
}
