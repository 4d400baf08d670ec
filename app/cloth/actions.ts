'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { countByRuler } from '#lib/cloth/ruler-count'
import { addCloth } from '#lib/db/cloth/add-cloth'
import type { ClothRefusal } from '#lib/db/cloth/cloth-refusal'
import { countCloth, countedWords } from '#lib/db/cloth/count-cloth'
import { cutCloth } from '#lib/db/cloth/cut-cloth'
import { editCloth, measureCloth } from '#lib/db/cloth/edit-cloth'
import { moveCloth, returnCloth } from '#lib/db/cloth/move-cloth'
import { findClothCard } from '#lib/db/cloth/queries'
import { removeCloth } from '#lib/db/cloth/remove-cloth'
import { restoreCloth } from '#lib/db/cloth/restore-cloth'
import { recordBleedTest } from '#lib/db/cloth/test-bleeding'
import { transferCloth } from '#lib/db/cloth/transfer-cloth'
import { washCloth } from '#lib/db/cloth/wash-cloth'
import type { Result } from '#lib/result'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { meantPlace } from '../_places/meant-place'
import {
  addClothSchema,
  bleedTestSchema,
  type CardReading,
  clothInputOf,
  countSchema,
  cutSchema,
  editClothSchema,
  measureSchema,
  moveSchema,
  pieceIdSchema,
  readingsSchema,
  removeSchema,
  restoreSchema,
  returnSchema,
  transferSchema,
  washSchema,
} from './schema'
import { describeClothRefusal, describeRulerRefusal } from './words'

async function cardReading(): Promise<CardReading> {
  const { settings } = await getViewer()
  return { unit: settings.lengthUnit, today: calendarDay(new Date()) }
}

/** The answer to a write of cloth, for the form it came from. */
async function answer(result: Result<unknown, ClothRefusal>, values: Record<string, string>, done: string): Promise<FormState> {
  const { settings } = await getViewer()
  if (!result.ok) return { status: 'refused', message: describeClothRefusal(result.error, settings.lengthUnit), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: done }
}

export async function addClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const read = readingsSchema.safeParse(values)
  const ruled = read.success ? { ...read.data, unit: read.data.ruler } : null
  const counted = ruled && countByRuler(ruled, ruled)
  const exact = counted?.ok ? { ends: counted.value.ends.count, picks: counted.value.picks.count } : null
  const input = addClothSchema(await cardReading(), exact).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { ownerId, placeLabel, ...card } = input.data
  const reason = ruled && exact && card.countCertainty === 'measured' ? countedWords(ruled) : null
  const result = await addCloth({ ...clothInputOf(card), ownerId, placeLabel, reason })
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/cloth/${result.value.id}`)
}

export async function editClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const named = pieceIdSchema.safeParse(values)
  const held = named.success ? await findClothCard(named.data.id) : null
  const input = editClothSchema(await cardReading(), held).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { id, version, ...card } = input.data
  const result = await editCloth({ ...clothInputOf(card), id, version })
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/cloth/${id}`)
}

export async function measureClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const { settings } = await getViewer()
  const values = textFields(form)
  const input = measureSchema(settings.lengthUnit).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { size, ...rest } = input.data
  return answer(
    await measureCloth({ ...rest, ...size, sizeCertainty: 'measured' }),
    values,
    say('Its measured size is written down.'),
  )
}

/** Counted along a ruler: on to the piece's page, where the new count stands. */
export async function countClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = countSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { ruler, turning, ...rest } = input.data
  const isTurnable = turning === 'as-it-was' ? null : turning === 'either'
  const result = await countCloth({ ...rest, unit: ruler, isTurnable })
  if (!result.ok) {
    const { error } = result
    if (error.kind === 'changed-meanwhile') return answer({ ok: false, error }, values, '')
    return { status: 'refused', message: describeRulerRefusal(error), values }
  }
  revalidatePath('/', 'layout')
  redirect(`/cloth/${rest.id}`)
}

export async function washClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = washSchema(await cardReading()).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(
    await washCloth(input.data),
    values,
    say('The wash is written down. Count its threads again when it is dry and pressed.'),
  )
}

export async function testBleedingAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = bleedTestSchema((await cardReading()).today).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await recordBleedTest(input.data), values, say('The test is written down.'))
}

export async function moveClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = moveSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { placeLabel, ...rest } = input.data
  const result = await moveCloth({ ...rest, toPlaceLabel: placeLabel })
  const { label, said } = await meantPlace(placeLabel)
  return answer(result, values, say('It lies in {label} now.{said}', { label, said }))
}

export async function returnClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = returnSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await returnCloth(input.data), values, say('It is back where it lives.'))
}

export async function cutClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const { settings } = await getViewer()
  const values = textFields(form)
  const input = cutSchema(settings.lengthUnit).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await cutCloth(input.data), values, say('The cut is written down. Label the offcuts before they are put away.'))
}

export async function transferClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = transferSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await transferCloth(input.data), values, say('It has changed hands.'))
}

export async function removeClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeCloth(input.data)
  if (!result.ok) return answer(result, values, '')
  revalidatePath('/', 'layout')
  redirect(`/cloth/${input.data.id}`)
}

export async function restoreClothAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = restoreSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return answer(await restoreCloth(input.data), values, say('It is back on the list.'))
}
