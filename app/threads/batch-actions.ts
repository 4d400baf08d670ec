'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { z } from 'zod'
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

/** A form about one batch: its fields are read by what is known of the thread, and what they say is done. */
async function onBatch<Input>(
  form: FormData,
  schemaFor: (subject: Subject) => z.ZodType<Input>,
  change: (input: Input, values: Values) => Promise<Changed | FormState>,
): Promise<FormState> {
  const values = textFields(form)
  const named = batchIdSchema.safeParse(values)
  const [found, { settings }] = await Promise.all([named.success ? findBatchThread(named.data.batchId) : null, getViewer()])
  if (!found) return goneBatch(values)
  const subject = { ...found, unit: settings.threadUnit }
  const input = schemaFor(subject).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const changed = await change(input.data, values)
  return 'status' in changed ? changed : answer(changed, subject, values)
}

async function atPlace(
  label: string,
  values: Values,
  change: (placeId: string) => Promise<Changed>,
): Promise<Changed | FormState> {
  const place = await findPlaceByLabel(label)
  return place ? change(place.id) : noSuchPlace(label, values)
}

export async function recordUseAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onBatch(form, recordUseSchema, recordUse)
}

export async function takeAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onBatch(
    form,
    () => takeSchema,
    ({ place, ...take }, values) => atPlace(place, values, (toPlaceId) => takeThread({ ...take, toPlaceId })),
  )
}

export async function moveAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onBatch(
    form,
    () => moveSchema,
    ({ place, stay, ...move }, values) =>
      atPlace(place, values, (toPlaceId) => moveBatch({ ...move, toPlaceId, becomesHome: stay === 'home' })),
  )
}

export async function returnAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onBatch(form, () => returnSchema, returnBatch)
}

export async function correctAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onBatch(form, correctSchema, correctBatch)
}

export async function relabelAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onBatch(form, relabelSchema, relabelBatch)
}

export async function passOnAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onBatch(
    form,
    () => passOnSchema,
    ({ howMuch, wholePutUps, takesPart, ...transfer }) =>
      transferBatch({ ...transfer, parting: howMuch === 'some' ? { wholePutUps, takesPart } : null }),
  )
}

export async function splitAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onBatch(
    form,
    () => splitSchema,
    ({ place, stay, ...split }, values) =>
      place === ''
        ? splitBatch(split)
        : atPlace(place, values, (placeId) =>
            splitBatch({ ...split, ...(stay === 'home' ? { homePlaceId: placeId } : { currentPlaceId: placeId }) }),
          ),
  )
}

export async function mergeAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onBatch(form, () => mergeSchema, mergeBatches)
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
