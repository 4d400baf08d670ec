'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { addChart } from '#lib/db/chart/add-chart'
import { addDesign } from '#lib/db/chart/add-design'
import type { ChartRefusal } from '#lib/db/chart/chart-refusal'
import { editChart } from '#lib/db/chart/edit-chart'
import { editDesign } from '#lib/db/chart/edit-design'
import { moveChart } from '#lib/db/chart/move-chart'
import { removeChart } from '#lib/db/chart/remove-chart'
import { removeDesign } from '#lib/db/chart/remove-design'
import { restoreChart } from '#lib/db/chart/restore-chart'
import { type ReturnChartRefusal, returnChart } from '#lib/db/place/return-chart'
import type { Result } from '#lib/result'
import { meantPlace } from '../_places/meant-place'
import {
  addChartSchema,
  addDesignSchema,
  chartInputOf,
  chartVersionSchema,
  designInputOf,
  designVersionSchema,
  editChartSchema,
  editDesignSchema,
  moveChartSchema,
  removeChartSchema,
} from './schema'
import { describeChartRefusal } from './words'

type Values = Record<string, string>

const invalid = (error: z.ZodError, values: Values): FormState => ({
  status: 'invalid',
  fieldErrors: z.flattenError(error).fieldErrors,
  values,
})

/** The answer to a write that leaves the page where it is. */
function answer(result: Result<unknown, ChartRefusal | ReturnChartRefusal>, values: Values, done: string): FormState {
  if (!result.ok) return { status: 'refused', message: describeChartRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: done }
}

const designTaken = (error: ChartRefusal, values: Values): FormState =>
  error.kind === 'design-taken'
    ? { status: 'invalid', fieldErrors: { designTitle: [describeChartRefusal(error)] }, values }
    : { status: 'refused', message: describeChartRefusal(error), values }

export async function addChartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = addChartSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { placeLabel, isAnother, title } = input.data
  const design = designInputOf(input.data, title)
  const result = await addChart({ ...chartInputOf(input.data), placeLabel, isAnother, design })
  if (!result.ok && result.error.kind === 'title-held')
    return { status: 'invalid', fieldErrors: { isAnother: [describeChartRefusal(result.error)] }, values }
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/designs/${result.value.designId}/lists/new`)
}

export async function editChartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = editChartSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { id, version } = input.data
  const result = await editChart({ ...chartInputOf(input.data), id, version })
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/charts/${id}`)
}

export async function moveChartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = moveChartSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { placeLabel, how, ...rest } = input.data
  const result = await moveChart({ ...rest, how, toPlaceLabel: placeLabel })
  const { label, said } = await meantPlace(placeLabel)
  const done = {
    take: say('It is in {label} now, and out.{said}', { label, said }),
    home: say('It lives in {label} now.{said}', { label, said }),
  }
  return answer(result, values, done[how])
}

export async function returnChartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = chartVersionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await returnChart(input.data), values, say('It is back where it lives.'))
}

export async function removeChartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeChartSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await removeChart(input.data), values, '')
}

export async function restoreChartAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = chartVersionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await restoreChart(input.data), values, '')
}

export async function addDesignAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = addDesignSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { chartId, ...fields } = input.data
  const result = await addDesign({ chartId, design: designInputOf(fields, '') })
  if (!result.ok) return designTaken(result.error, values)
  revalidatePath('/', 'layout')
  redirect(`/designs/${result.value.id}/lists/new`)
}

export async function editDesignAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = editDesignSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { id, version, ...fields } = input.data
  const result = await editDesign({ id, version, design: designInputOf(fields, '') })
  if (!result.ok) return designTaken(result.error, values)
  revalidatePath('/', 'layout')
  redirect(`/designs/${id}`)
}

export async function removeDesignAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = designVersionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeDesign(input.data)
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/charts/${result.value.chartId}`)
}
