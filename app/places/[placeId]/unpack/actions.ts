'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { getSettings } from '#lib/db/settings/settings'
import { unpackBag } from '#lib/db/unpack/unpack-bag'
import { readUnpackSheet } from '#lib/db/unpack/unpack-sheet'
import { describeUnpackRefusal } from '#words/missing'
import { readUnpack } from './read-unpack'
import { unpackSchema } from './schema'

export async function unpackAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = unpackSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { placeId, who } = input.data
  const [settings, sheet] = await Promise.all([getSettings(), readUnpackSheet(placeId)])
  if (!sheet) return { status: 'refused', message: describeUnpackRefusal({ kind: 'no-such-place', placeId }, 'm'), values }
  const { fieldErrors, ...said } = readUnpack(values, sheet, settings.threadUnit)
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  const result = await unpackBag({ placeId, who, ...said, title: sheet.place.label })
  if (!result.ok) {
    const findThread = (threadId: string) => sheet.threads.find((row) => row.threadId === threadId)
    return { status: 'refused', message: describeUnpackRefusal(result.error, settings.threadUnit, findThread), values }
  }
  revalidatePath('/', 'layout')
  redirect(`/places/${placeId}/unpack?at=${result.value.at.getTime()}`)
}
