'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { findPlaceByLabel } from '#lib/db/place/queries'
import type { StockChanged } from '#lib/db/stock/change-batch'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { moveBatch } from '#lib/db/stock/move-batch'
import { findBatchThread } from '#lib/db/stock/queries'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { relabelBatch } from '#lib/db/stock/relabel-batch'
import { releasePromises } from '#lib/db/stock/release-promises'
import { returnBatch } from '#lib/db/stock/return-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { transferBatch } from '#lib/db/stock/transfer-batch'
import { findThreadNamed } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { type Result, refused } from '#lib/result'
import type { FormState } from '#ui/form'
import { getViewer } from '#viewer/viewer'
import {
  batchIdSchema,
  correctSchema,
  moveSchema,
  passOnSchema,
  receiveSchema,
  recordUseSchema,
  relabelSchema,
  releaseSchema,
  returnSchema,
  takeSchema,
} from './schema'
import { describeStockRefusal, type StockRefusal } from './words'

type Values = Record<string, string>
type Subject = { threadId: string; strands: number; unit: ThreadLengthUnit }
type Changed = Result<StockChanged, StockRefusal>

const noSuchPlace = (label: string, values: Values): FormState => ({
  status: 'invalid',
  fieldErrors: { place: [`No place is labelled ${label}. Choose one of the list, or add it under Places first.`] },
  values,
})

/** The thread a form's batch is of; null when the batch is gone. */
async function findSubject(values: Values): Promise<Subject | null> {
  const named = batchIdSchema.safeParse(values)
  const [found, { settings }] = await Promise.all([named.success ? findBatchThread(named.data.batchId) : null, getViewer()])
  return found && { ...found, unit: settings.threadUnit }
}

const goneBatch = (values: Values): FormState => ({
  status: 'refused',
  message: describeStockRefusal({ kind: 'no-such-batch', batchId: values.batchId ?? '' }, { strands: 1, unit: 'm' }),
  values,
})

/** Back to the thread's page, which says what was done; or why it was not. */
function answer(result: Changed, subject: Subject, values: Values): FormState {
  if (!result.ok) return { status: 'refused', message: describeStockRefusal(result.error, subject), values }
  revalidatePath('/', 'layout')
  redirect(`/threads/${subject.threadId}?did=${result.value.revision}`)
}

export async function recordUseAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const subject = await findSubject(values)
  if (!subject) return goneBatch(values)
  const input = recordUseSchema(subject).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await recordUse({ ...input.data, strandTenths: input.data.strandTenths as number }), subject, values)
}

export async function takeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const subject = await findSubject(values)
  if (!subject) return goneBatch(values)
  const input = takeSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { place: label, ...take } = input.data
  const place = await findPlaceByLabel(label)
  if (!place) return noSuchPlace(label, values)
  return answer(await takeThread({ ...take, toPlaceId: place.id }), subject, values)
}

export async function moveAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const subject = await findSubject(values)
  if (!subject) return goneBatch(values)
  const input = moveSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { place: label, stay, ...move } = input.data
  const place = await findPlaceByLabel(label)
  if (!place) return noSuchPlace(label, values)
  return answer(await moveBatch({ ...move, toPlaceId: place.id, becomesHome: stay === 'home' }), subject, values)
}

export async function returnAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const subject = await findSubject(values)
  if (!subject) return goneBatch(values)
  const input = returnSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await returnBatch(input.data), subject, values)
}

export async function correctAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const subject = await findSubject(values)
  if (!subject) return goneBatch(values)
  const input = correctSchema(subject).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await correctBatch(input.data), subject, values)
}

export async function relabelAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const subject = await findSubject(values)
  if (!subject) return goneBatch(values)
  const input = relabelSchema(subject).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await relabelBatch(input.data), subject, values)
}

export async function passOnAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const subject = await findSubject(values)
  if (!subject) return goneBatch(values)
  const input = passOnSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await transferBatch(input.data), subject, values)
}

export async function receiveAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const [thread, { settings }] = await Promise.all([findThreadNamed(values.threadId ?? ''), getViewer()])
  const subject = { threadId: thread?.id ?? '', strands: thread?.line.strands ?? 1, unit: settings.threadUnit }
  if (!thread) return answer(refused({ kind: 'no-such-thread', threadId: '' }), subject, values)
  const input = receiveSchema(subject).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { place: label, ...goods } = input.data
  const home = { homePlaceId: null, homePlaceLabel: label || undefined }
  const received = { ...goods, ...home, partStrandTenths: goods.partStrandTenths ?? 0 }
  return answer(await receiveThread(received), subject, values)
}

export async function releaseAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = releaseSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await releasePromises(input.data)
  if (!result.ok) return { status: 'refused', message: describeStockRefusal(result.error, { strands: 1, unit: 'm' }), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
