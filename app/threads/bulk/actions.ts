'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { applyBulkEdit } from '#lib/db/bulk-edit/apply-bulk-edit'
import { undoBulkEdit } from '#lib/db/bulk-edit/undo-bulk-edit'
import { getViewer } from '#viewer/viewer'
import { listChosen } from './chosen-threads'
import { applySchema, queryOf, readBulkChoices, readChange, undoSchema } from './schema'
import { describeBulkRefusal, describeBulkUndoRefusal } from './words'

export async function applyBulkEditAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = applySchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { ownerIds, owners } = await getViewer()
  const query = queryOf(input.data.search)
  const choices = readBulkChoices(query)
  const asked = await readChange(choices, owners)
  if ('wrong' in asked) return { status: 'refused', message: asked.wrong, values }
  const threadIds = await listChosen(query, choices, ownerIds)
  const { fingerprint, who } = input.data
  const result = await applyBulkEdit({ ...asked, threadIds, ownerIds, fingerprint, who: who || null })
  if (!result.ok) return { status: 'refused', message: describeBulkRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/threads/bulk/done/${result.value.bulkEditId}`)
}

export async function undoBulkEditAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = undoSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await undoBulkEdit(input.data)
  if (!result.ok) return { status: 'refused', message: describeBulkUndoRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
