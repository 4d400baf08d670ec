'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { z } from 'zod'
import { findCalled } from '#forms/find-called'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { addStandIn } from '#lib/db/thread/add-stand-in'
import { addThread, type LineFacts, type ThreadFacts } from '#lib/db/thread/add-thread'
import { editLine } from '#lib/db/thread/edit-line'
import { editThread } from '#lib/db/thread/edit-thread'
import { removeStandIn } from '#lib/db/thread/remove-stand-in'
import { removeThread } from '#lib/db/thread/remove-thread'
import { getViewer } from '#viewer/viewer'
import { threadTitle } from '#words/thread'
import {
  addStandInSchema,
  addThreadAndLineSchema,
  addThreadSchema,
  editLineSchema,
  editThreadSchema,
  removeStandInSchema,
  removeThreadSchema,
} from './schema'
import { describeThreadRefusal } from './words'

type LineInput = Omit<z.infer<ReturnType<typeof addThreadAndLineSchema>>, keyof ThreadFacts>

const lineFacts = ({ lineName, putUpTenths, putUpGrams, price, ...line }: LineInput): LineFacts => ({
  ...line,
  name: lineName,
  putUpMilligrams: putUpGrams,
  priceMinor: price,
  putUpStrandTenths: (putUpTenths as number) * line.strands,
})

export async function addThreadAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = addThreadSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { lineId, ...facts } = input.data
  const result = await addThread({ ...facts, line: { id: lineId } })
  if (!result.ok) return { status: 'refused', message: describeThreadRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/threads/${result.value.threadId}`)
}

export async function addThreadAndLineAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const { settings } = await getViewer()
  const input = addThreadAndLineSchema(settings.threadUnit).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { code, name, lab, labCertainty, family, isLeaving, minimumPutUps, note, ...line } = input.data
  const facts = { code, name, lab, labCertainty, family, isLeaving, minimumPutUps, note }
  const result = await addThread({ ...facts, line: lineFacts(line) })
  if (!result.ok) return { status: 'refused', message: describeThreadRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/threads/${result.value.threadId}`)
}

export async function editThreadAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = editThreadSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await editThread(input.data)
  if (!result.ok) return { status: 'refused', message: describeThreadRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/threads/${input.data.threadId}`)
}

export async function editLineAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const { settings } = await getViewer()
  const input = editLineSchema(settings.threadUnit).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { lineId, version, ...line } = input.data
  const result = await editLine({ ...lineFacts(line), lineId, version })
  if (!result.ok) return { status: 'refused', message: describeThreadRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/threads?line=${lineId}`)
}

export async function removeThreadAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeThreadSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeThread(input.data)
  if (!result.ok) return { status: 'refused', message: describeThreadRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect('/threads')
}

export async function addStandInAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = addStandInSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { threadId, standIn, source } = input.data
  const called = await findCalled(standIn)
  if (!called.ok) return { status: 'invalid', fieldErrors: { standIn: [called.error] }, values }
  const result = await addStandIn({ threadId, standInThreadId: called.value.id, source })
  if (!result.ok) return { status: 'refused', message: describeThreadRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('{threadTitle} may stand in.', { threadTitle: threadTitle(called.value) }) }
}

export async function removeStandInAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeStandInSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeStandIn(input.data.standInId)
  if (!result.ok) return { status: 'refused', message: describeThreadRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
