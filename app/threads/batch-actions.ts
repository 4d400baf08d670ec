'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { findPlaceByLabel } from '#lib/db/place/queries'
import type { StockChanged } from '#lib/db/stock/change-batch'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { mergeBatches } from '#lib/db/stock/merge-batches'
import { moveBatch } from '#lib/db/stock/move-batch'
import { type BatchFigures, findBatchThread, findThreadFigures } from '#lib/db/stock/queries'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { relabelBatch } from '#lib/db/stock/relabel-batch'
import { releasePromises } from '#lib/db/stock/release-promises'
import { returnBatch } from '#lib/db/stock/return-batch'
import { splitBatch } from '#lib/db/stock/split-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { transferBatch } from '#lib/db/stock/transfer-batch'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { type Result, refused } from '#lib/result'
import { getViewer } from '#viewer/viewer'
import {
  batchIdSchema,
  correctSchema,
  mergeSchema,
  moveSchema,
  passOnSchema,
  receiveSchema,
  recordUseSchema,
  relabelSchema,
  releaseSchema,
  returnSchema,
  splitSchema,
  takeSchema,
} from './schema'
import { describeStockRefusal, type StockRefusal } from './words'

type Values = Record<string, string>
type Subject = BatchFigures & { unit: ThreadLengthUnit }
type Changed = Result<StockChanged, StockRefusal>

const noSuchPlace = (label: string, values: Values): FormState => ({
  status: 'invalid',
  fieldErrors: { place: [say('No place is labelled {label}. Choose one of the list, or add it under Places first.', { label })] },
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
function answer(result: Changed, subject: Pick<Subject, 'threadId' | 'strands' | 'unit'>, values: Values): FormState {
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
  return answer(await recordUse(input.data), subject, values)
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
  const { howMuch, wholePutUps, takesPart, ...transfer } = input.data
  const parting = howMuch === 'some' ? { wholePutUps, takesPart } : null
  return answer(await transferBatch({ ...transfer, parting }), subject, values)
}

export async function splitAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const subject = await findSubject(values)
  if (!subject) return goneBatch(values)
  const input = splitSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { place: label, stay, ...split } = input.data
  const place = label === '' ? null : await findPlaceByLabel(label)
  if (label !== '' && !place) return noSuchPlace(label, values)
  const where = place && (stay === 'home' ? { homePlaceId: place.id } : { currentPlaceId: place.id })
  return answer(await splitBatch({ ...split, ...where }), subject, values)
}

export async function mergeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const subject = await findSubject(values)
  if (!subject) return goneBatch(values)
  const input = mergeSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await mergeBatches(input.data), subject, values)
}

export async function receiveAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const [figures, { settings }] = await Promise.all([findThreadFigures(values.threadId ?? ''), getViewer()])
  const { threadUnit: unit } = settings
  if (!figures) return answer(refused({ kind: 'no-such-thread', threadId: '' }), { threadId: '', strands: 1, unit }, values)
  const subject = { ...figures, unit }
  const input = receiveSchema(subject).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { place: label, ...goods } = input.data
  const home = { homePlaceId: null, homePlaceLabel: label || undefined }
  return answer(await receiveThread({ ...goods, ...home }), subject, values)
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
