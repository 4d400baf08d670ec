'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import type { ChartRefusal } from '#lib/db/chart/chart-refusal'
import { newThreadKey } from '#lib/db/chart/ensure-threads'
import { removeThreadList } from '#lib/db/chart/remove-thread-list'
import { saveThreadList } from '#lib/db/chart/save-thread-list'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { meantThreads, newThreadsText } from './new-threads-text'
import { type KeyForm, readKeyForm } from './read-key-form'
import { designVersionSchema, listHeadSchema } from './schema'
import { describeChartRefusal, describeNewThread } from './words'

type Values = Record<string, string>

export async function saveListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const { settings } = await getViewer()
  const values = textFields(form)
  const head = listHeadSchema.safeParse(values)
  const key = readKeyForm(values, settings.threadUnit)
  if (!head.success || !key.ok) {
    const fieldErrors = { ...(head.error && z.flattenError(head.error).fieldErrors), ...(key.ok ? {} : key.error) }
    return { status: 'invalid', fieldErrors, values }
  }
  const { designId, listId, version, name } = head.data
  const list = listId === null ? null : { id: listId, version }
  const mayAdd = meantThreads(values.mayAdd)
  const result = await saveThreadList({ designId, list, name, keyLines: key.value.keyLines, mayAdd })
  if (!result.ok) return refusedList(result.error, key.value, values)
  revalidatePath('/', 'layout')
  if (list === null) redirect(`/designs/${designId}/lists/${result.value.listId}?saved=${result.value.added.length}`)
  const { added } = result.value
  const lines = counted(key.value.keyLines.length, 'line')
  return {
    status: 'done',
    message: say('Saved: {lines}{rest}.', {
      lines,
      rest: added.length > 0 ? say(', {added, plural, one {# new thread} other {# new threads}}', { added: added.length }) : '',
    }),
  }
}

/** Where a refusal is about one field it stands there; else over the form. */
function refusedList(refusal: ChartRefusal, { keyLines, places }: KeyForm, values: Values): FormState {
  const message = describeChartRefusal(refusal)
  switch (refusal.kind) {
    case 'list-taken':
      return { status: 'invalid', fieldErrors: { name: [message] }, values }
    case 'which-line': {
      const at = refusal.lineNumber - 1
      const place = places[at]
      const thread = keyLines[at]?.threads.findIndex(({ code, lineName }) => code === refusal.code && lineName === null) ?? 0
      const field = place?.lineFields[Math.max(thread, 0)] ?? 'name'
      const sentence = describeChartRefusal({ ...refusal, lineNumber: place?.number ?? refusal.lineNumber })
      return { status: 'invalid', fieldErrors: { [field]: [sentence] }, values }
    }
    case 'new-threads': {
      const newThreads = newThreadsText(
        refusal.threads.map((thread) => ({ key: newThreadKey(thread), words: describeNewThread(thread) })),
      )
      return { status: 'invalid', fieldErrors: { mayAdd: [message] }, values: { ...values, newThreads } }
    }
    default:
      return { status: 'refused', message, values }
  }
}

export async function removeListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = designVersionSchema.safeParse(values)
  if (!input.success) return { status: 'invalid', fieldErrors: z.flattenError(input.error).fieldErrors, values }
  const result = await removeThreadList(input.data)
  if (!result.ok) return { status: 'refused', message: describeChartRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/designs/${result.value.designId}`)
}
