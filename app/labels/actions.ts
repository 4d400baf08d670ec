'use server'

import { revalidatePath } from 'next/cache'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { getViewer } from '#viewer/viewer'
import { describeLabelRefusal, keepPrinted } from '../_labels/read-labels'
import { choiceMeant } from './choice-meant'
import { parametersOf, readLabelsQuery, whichOf } from './labels-query'

/** The choices the page was drawn with, and what its labels said. */
const printedSchema = z.object({ search: z.string().max(2_000), seen: z.string().max(64) })

export async function keepPrintedAction(_previous: FormState, form: FormData): Promise<FormState> {
  const input = printedSchema.safeParse(textFields(form))
  if (!input.success) return { status: 'refused', message: describeLabelRefusal({ kind: 'changed-meanwhile' }) }
  const query = readLabelsQuery(parametersOf(new URLSearchParams(input.data.search)))
  const { settings, ownerIds } = await getViewer()
  const kept = await keepPrinted(
    {
      choice: await choiceMeant(query, ownerIds, settings.lengthUnit),
      which: whichOf(query),
      ownerIds,
      unit: settings.lengthUnit,
    },
    input.data.seen,
  )
  if (!kept.ok) return { status: 'refused', message: describeLabelRefusal(kept.error) }
  revalidatePath('/labels')
  return {
    status: 'done',
    message: say('{count, plural, one {# label} other {# labels}} kept as printed.', { count: kept.value.count }),
  }
}
