'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { getAnswers } from '#lib/db/answers/get-answers'
import { applyChartBulk } from '#lib/db/chart-bulk/apply-chart-bulk'
import { undoChartBulk } from '#lib/db/chart-bulk/undo-chart-bulk'
import { getViewer } from '#viewer/viewer'
import { chosenDesigns } from '../../_listing/chosen-designs'
import { searchOfUrl } from '../../_listing/search-of-url'
import { applySchema, readAsked, readChange, undoSchema } from './schema'
import { describeBulkRefusal, describeBulkUndoRefusal } from './words'

export async function applyChartBulkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = applySchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const [{ ownerIds, owners }, answers] = await Promise.all([getViewer(), getAnswers()])
  const asked = readAsked(searchOfUrl(`/charts/bulk?${input.data.search}`))
  const read = await readChange(asked, owners, answers)
  if ('wrong' in read) return { status: 'refused', message: read.wrong, values }
  const chosen = await chosenDesigns(answers, asked.chosen, ownerIds)
  if (!chosen) return { status: 'refused', message: say('What was chosen is no longer kept. Choose again.'), values }
  const { fingerprint, who } = input.data
  const result = await applyChartBulk({ ...read, designIds: chosen.designIds, fingerprint, who: who || null })
  if (!result.ok) return { status: 'refused', message: describeBulkRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/charts/bulk/done/${result.value.bulkEditId}`)
}

export async function undoChartBulkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = undoSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await undoChartBulk(input.data)
  if (!result.ok) return { status: 'refused', message: describeBulkUndoRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
