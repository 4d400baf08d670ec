'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { forgetBarcode, rememberBarcode } from '#lib/db/thread/barcodes'
import { findThreadNamed } from '#lib/db/thread/find-thread'
import { threadTitle } from '#words/thread'
import { forgetBarcodeSchema, rememberBarcodeSchema } from './schema'
import { describeBarcodeRefusal } from './words'

export async function rememberBarcodeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = rememberBarcodeSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await rememberBarcode(input.data)
  if (!result.ok) {
    const other = 'threadId' in result.error ? await findThreadNamed(result.error.threadId) : null
    return { status: 'refused', message: describeBarcodeRefusal(result.error, other && threadTitle(other)), values }
  }
  revalidatePath(`/threads/${input.data.threadId}`)
  return { status: 'done', message: say('{code} is remembered.', { code: result.value.code }) }
}

export async function forgetBarcodeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = forgetBarcodeSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await forgetBarcode({ id: input.data.id })
  if (!result.ok) return { status: 'refused', message: describeBarcodeRefusal(result.error, null), values }
  revalidatePath(`/threads/${input.data.threadId}`)
  return { status: 'done' }
}
