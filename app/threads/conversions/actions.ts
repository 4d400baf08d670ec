'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readStagedFile, stageFile } from '#lib/db/importing/stage-file'
import { addConversions, removeConversions } from '#lib/db/thread/conversions'
import { readOpinionList } from '#lib/db/thread/read-opinion-list'
import { bringListSchema, keepListSchema, removeListSchema } from './schema'
import { describeConversionRefusal, describeListRefusal } from './words'

/** Keep what was pasted or chosen for a day and show what it says; nothing is written yet. */
export async function previewListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = bringListSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { sourceName, text, lineId, otherLineId } = input.data
  const file = form.get('file')
  const isFile = file instanceof File && file.size > 0
  if (!isFile && text.trim() === '')
    return { status: 'invalid', fieldErrors: { text: [say('Paste the list, or choose it as a file.')] }, values }
  const bytes = isFile ? new Uint8Array(await file.arrayBuffer()) : new TextEncoder().encode(text)
  const read = readOpinionList(await getAnswers(), bytes, { lineId, otherLineId })
  if (!read.ok) return { status: 'refused', message: describeListRefusal(read.error), values }
  const { stagedId } = await stageFile(isFile ? file.name : 'pasted', bytes)
  const query = new URLSearchParams({ source: sourceName, line: lineId ?? '', other: otherLineId ?? '' })
  redirect(`/threads/conversions/${stagedId}?${query}`)
}

export async function keepListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = keepListSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { stagedId, sourceName, lineId, otherLineId } = input.data
  const staged = await readStagedFile(stagedId)
  if (!staged)
    return { status: 'refused', message: say('That list is no longer here: it was kept for a day. Bring it again.'), values }
  const read = readOpinionList(await getAnswers(), staged.bytes, { lineId, otherLineId })
  if (!read.ok) return { status: 'refused', message: describeListRefusal(read.error), values }
  const result = await addConversions({ sourceName, pairs: read.value.matched })
  if (!result.ok) return { status: 'refused', message: describeConversionRefusal(result.error), values }
  revalidatePath('/threads', 'layout')
  const { sourceKey, addedCount, knownCount } = result.value
  const query = new URLSearchParams({ list: sourceKey, added: String(addedCount), known: String(knownCount) })
  redirect(`/threads/conversions?${query}`)
}

export async function removeListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeListSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeConversions(input.data.sourceKey)
  if (!result.ok) return { status: 'refused', message: describeConversionRefusal(result.error), values }
  revalidatePath('/threads', 'layout')
  redirect('/threads/conversions')
}
