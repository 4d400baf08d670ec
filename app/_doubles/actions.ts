'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { mergeCharts } from '#lib/db/merging/merge-charts'
import { mergeDesigners } from '#lib/db/merging/merge-designers'
import { mergeLines } from '#lib/db/merging/merge-lines'
import { mergeMakers } from '#lib/db/merging/merge-makers'
import { mergeThreads } from '#lib/db/merging/merge-threads'
import { forgetTellingApart, tellApart } from '#lib/db/merging/tell-apart'
import { undoMerging } from '#lib/db/merging/undo-merging'
import {
  choicesOf,
  factsOf,
  lookAgainSchema,
  mergeChartsSchema,
  mergeNamedSchema,
  tellApartSchema,
  undoMergingSchema,
} from './schema'
import { describeMergingRefusal } from './words'

export async function mergeChartsAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = mergeChartsSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await mergeCharts({ ...input.data, choices: choicesOf(values), factsOfDesignIds: factsOf(values) })
  if (!result.ok) return { status: 'refused', message: describeMergingRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/charts/doubles/${result.value.mergingId}`)
}

const merges = { designer: mergeDesigners, thread: mergeThreads, line: mergeLines, maker: mergeMakers }

export async function mergeNamedAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = mergeNamedSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { noun, firstId, secondId, keptId } = input.data
  const result = await merges[noun]({ keptId, goneId: keptId === firstId ? secondId : firstId })
  if (!result.ok) return { status: 'refused', message: describeMergingRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/${noun === 'designer' ? 'charts' : 'threads'}/doubles/${result.value.mergingId}`)
}

export async function tellApartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = tellApartSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await tellApart(input.data)
  if (!result.ok) return { status: 'refused', message: describeMergingRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('They are two, and are not suggested again.') }
}

export async function lookAgainAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = lookAgainSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  await forgetTellingApart(input.data)
  revalidatePath('/', 'layout')
  return { status: 'done' }
}

export async function undoMergingAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = undoMergingSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await undoMerging(input.data)
  if (!result.ok) return { status: 'refused', message: describeMergingRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
