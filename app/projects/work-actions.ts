'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { readPhotoField } from '#forms/read-photo-field'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { getSettings } from '#lib/db/settings/settings'
import { changeWork } from '#lib/db/work/change-work'
import { dropTimer } from '#lib/db/work/drop-timer'
import { logWork } from '#lib/db/work/log-work'
import { removeWork } from '#lib/db/work/remove-work'
import { restoreWork } from '#lib/db/work/restore-work'
import { setWorkPhoto } from '#lib/db/work/set-work-photo'
import { startTimer } from '#lib/db/work/start-timer'
import { calendarDay } from '#words/date'
import { photoRefusalWords } from '#words/photo'
import { workWords } from '#words/work'
import { describeProjectRefusal } from './words'
import { changeWorkSchema, logWorkSchema, timedProjectSchema, workEntrySchema } from './work-schema'

type ProjectRefusal = Parameters<typeof describeProjectRefusal>[0]

const refusedAs = async (refusal: ProjectRefusal, values: Record<string, string>): Promise<FormState> => ({
  ...{ status: 'refused', message: describeProjectRefusal(refusal, await getSettings()), values },
})

/** Log what was done: a form's figures, a tick, or what the timer says. */
export async function logWorkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = logWorkSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const photo = await readPhotoField(form.get('photo'))
  if (photo && !photo.ok) return { status: 'invalid', fieldErrors: { photo: [photoRefusalWords(photo.error)] }, values }
  const { day, stitches, minutes, isTick, ...said } = input.data
  const today = calendarDay(new Date())
  const result = await logWork({
    ...said,
    ...{ day: day || today, today, stitches: stitches ?? 0, minutes, photo: photo?.value ?? null },
    // A note or a photo alone says that it was worked on, too.
    isTick: isTick || said.note !== null || photo !== null,
  })
  if (!result.ok) return refusedAs(result.error, values)
  revalidatePath('/', 'layout')
  const logged = said.stopsTimer
    ? say('the timer’s time')
    : workWords({ ...said, stitches: stitches ?? 0, minutes: minutes ?? 0 })
  return {
    status: 'done',
    message: say('Logged: {logged}.{isTakenUp, select, yes { It is under the needle now.} other {}}', {
      logged,
      isTakenUp: result.value.isTakenUp,
    }),
  }
}

/** Say otherwise what was done on a day, and show it by a photo where one is sent along. */
export async function changeWorkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = changeWorkSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const photo = await readPhotoField(form.get('photo'))
  if (photo && !photo.ok) return { status: 'invalid', fieldErrors: { photo: [photoRefusalWords(photo.error)] }, values }
  const { stitches, minutes, ...said } = input.data
  const today = calendarDay(new Date())
  const result = await changeWork({ ...said, stitches: stitches ?? 0, minutes: minutes ?? 0, today })
  if (!result.ok) return refusedAs(result.error, values)
  const shown = photo ? await setWorkPhoto({ entryId: said.entryId, photo: photo.value }) : null
  if (shown && !shown.ok) return refusedAs(shown.error, values)
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Changed.') }
}

export async function removeWorkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = workEntrySchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeWork(input.data)
  if (!result.ok) return refusedAs(result.error, values)
  revalidatePath('/', 'layout')
  return { status: 'done' }
}

export async function restoreWorkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = workEntrySchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await restoreWork(input.data)
  if (!result.ok) return refusedAs(result.error, values)
  revalidatePath('/', 'layout')
  return { status: 'done' }
}

export async function startTimerAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = timedProjectSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await startTimer(input.data)
  if (!result.ok) return refusedAs(result.error, values)
  revalidatePath('/', 'layout')
  return { status: 'done' }
}

export async function dropTimerAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = timedProjectSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await dropTimer(input.data)
  if (!result.ok) return refusedAs(result.error, values)
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
