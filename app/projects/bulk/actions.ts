'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { applyProjectBulk } from '#lib/db/project-bulk/apply-project-bulk'
import { undoProjectBulk } from '#lib/db/project-bulk/undo-project-bulk'
import { getViewer } from '#viewer/viewer'
import { chosenProjects } from '../../_listing/chosen-projects'
import { searchOfUrl } from '../../_listing/search-of-url'
import { applySchema, readAsked, readChange, undoSchema } from './schema'
import { describeBulkRefusal, describeBulkUndoRefusal } from './words'

export async function applyProjectBulkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = applySchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const asked = readAsked(searchOfUrl(`/projects/bulk?${input.data.search}`))
  const read = readChange(asked)
  if ('wrong' in read) return { status: 'refused', message: read.wrong, values }
  const { ownerIds } = await getViewer()
  const chosen = await chosenProjects(asked.chosen, ownerIds)
  if (!chosen) return { status: 'refused', message: say('What was chosen is no longer kept. Choose again.'), values }
  const { fingerprint, who } = input.data
  const result = await applyProjectBulk({ ...read, projectIds: chosen.projectIds, fingerprint, who: who || null })
  if (!result.ok) return { status: 'refused', message: describeBulkRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/projects/bulk/done/${result.value.bulkEditId}`)
}

export async function undoProjectBulkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = undoSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await undoProjectBulk(input.data)
  if (!result.ok) return { status: 'refused', message: describeBulkUndoRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
