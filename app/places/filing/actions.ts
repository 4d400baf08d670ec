'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { carryOutFiling } from '#lib/db/filing/carry-out-filing'
import { listLines } from '#lib/db/thread/list-lines'
import { getViewer } from '#viewer/viewer'
import { lineTitle } from '#words/thread'
import { carryOutSchema, filingChoicesSchema, requestOf } from './schema'
import { describeFilingRefusal } from './words'

export async function carryOutFilingAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = carryOutSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { search, way, fingerprint, who } = input.data
  const choices = filingChoicesSchema.parse(Object.fromEntries(new URLSearchParams(search)))
  const [{ ownerIds }, lines] = await Promise.all([getViewer(), listLines()])
  const line = lines.find(({ id }) => id === choices.line)
  if (!line) return { status: 'refused', message: say('That line is no longer on record.'), values }
  const result = await carryOutFiling({
    ...requestOf(choices, line.id, ownerIds),
    ...{ way, fingerprint, who: who || null },
    what: say('{line} filed anew', { line: lineTitle(line) }),
  })
  if (!result.ok) return { status: 'refused', message: describeFilingRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/threads/bulk/done/${result.value.bulkEditId}`)
}
