'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { readPhotoField } from '#forms/read-photo-field'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { putBackNotion } from '#lib/db/notion/put-back-notion'
import { changeBag } from '#lib/db/project/change-bag'
import { editProject } from '#lib/db/project/edit-project'
import { finishProject } from '#lib/db/project/finish-project'
import { readFinishSheet } from '#lib/db/project/finish-sheet'
import { kitProject } from '#lib/db/project/kit-project'
import { moveProject } from '#lib/db/project/move-project'
import { promiseAgain } from '#lib/db/project/promise-again'
import { abandonProject, releaseProject } from '#lib/db/project/put-kit-back'
import { setPhoto } from '#lib/db/project/set-photo'
import { setProjectSwap } from '#lib/db/project/set-project-swap'
import { startProject } from '#lib/db/project/start-project'
import { getSettings } from '#lib/db/settings/settings'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { releasePromises } from '#lib/db/stock/release-promises'
import { readThreadTags } from '#lib/db/thread/thread-tag'
import { startPull } from '#lib/db/walk/start-pull'
import type { Result } from '#lib/result'
import { calendarDay } from '#words/date'
import { describeNotionRefusal } from '#words/notion'
import { threadName } from '#words/thread'
import { describeWalkRefusal } from '#words/walk'
import { keptField, parseUsed } from './parse-used'
import {
  changeBagSchema,
  closeProjectSchema,
  editProjectSchema,
  finishProjectSchema,
  giveBackSchema,
  kitProjectSchema,
  moveProjectSchema,
  projectSchema,
  promiseBatchSchema,
  pullProjectSchema,
  putBackNotionSchema,
  setSwapSchema,
  startProjectSchema,
} from './schema'
import { describeProjectRefusal } from './words'

type ProjectRefusal = Parameters<typeof describeProjectRefusal>[0]

/** A form that does one thing to a project: its fields are read, it is done, and what came of it is told; or why not. */
async function onProject<Input, Done>(
  form: FormData,
  schema: z.ZodType<Input>,
  change: (input: Input) => Promise<Result<Done, ProjectRefusal>>,
  tell: (done: Done, input: Input) => FormState | Promise<FormState> = () => ({ status: 'done' }),
): Promise<FormState> {
  const values = textFields(form)
  const input = schema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await change(input.data)
  if (!result.ok) return { status: 'refused', message: describeProjectRefusal(result.error, await getSettings()), values }
  revalidatePath('/', 'layout')
  return tell(result.value, input.data)
}

export async function startProjectAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onProject(form, startProjectSchema, startProject, ({ projectId }) => redirect(`/projects/${projectId}`))
}

export async function promiseAgainAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onProject(form, projectSchema, promiseAgain, ({ short }) => ({
    status: 'done',
    message:
      short.length === 0
        ? say('Everything it needs is promised.')
        : say('Still short of {short, plural, one {# thread} other {# threads}}.', { short: short.length }),
  }))
}

export async function setSwapAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = setSwapSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await setProjectSwap(input.data)
  if (!result.ok) {
    const { error } = result
    const tags = await readThreadTags('threadId' in error ? [error.threadId] : [])
    return { status: 'refused', message: describeProjectRefusal(error, await getSettings(), (id) => tags.get(id)), values }
  }
  revalidatePath('/', 'layout')
  const { short } = result.value
  return {
    status: 'done',
    message:
      short.length === 0
        ? say('Noted; its promises follow.')
        : say('Noted. Still short of {short, plural, one {# thread} other {# threads}}.', { short: short.length }),
  }
}

export async function promiseBatchAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const [settings, tags] = await Promise.all([getSettings(), readThreadTags([values.threadId ?? ''])])
  const thread = tags.get(values.threadId ?? '')
  const input = promiseBatchSchema({ unit: settings.threadUnit, strands: thread?.strands ?? 1 }).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await promiseStock(input.data)
  if (!result.ok) return { status: 'refused', message: describeProjectRefusal(result.error, settings, () => thread), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}

export async function giveBackAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onProject(form, giveBackSchema, releasePromises)
}

/** Begin a walk for one project. */
export async function startWalkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = pullProjectSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await startPull({ projectIds: [input.data.projectId] })
  if (!result.ok) return { status: 'refused', message: describeWalkRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/walks/${result.value.walkId}`)
}

export async function kitProjectAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onProject(form, kitProjectSchema, kitProject, async ({ takenCount, leftThere }) => {
    if (leftThere.length === 0)
      return {
        status: 'done',
        message: say('In the bag: {takenCount, plural, one {# batch} other {# batches}} of thread.', { takenCount }),
      }
    const tags = await readThreadTags(leftThere.map(({ threadId }) => threadId))
    const names = [...tags.values()].map(threadName).join('; ')
    return {
      status: 'done',
      message: say(
        '{takenCount, plural, one {# batch} other {# batches}} in the bag. Left there, because it is gone or promised to others too: {names}.',
        { takenCount, names },
      ),
    }
  })
}

export async function changeBagAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onProject(form, changeBagSchema, changeBag, (_, { bagLabel }) => ({
    status: 'done',
    message: say('The kit is in {bagLabel}.', { bagLabel }),
  }))
}

export async function moveProjectAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onProject(form, moveProjectSchema, (input) => moveProject({ ...input, today: calendarDay(new Date()) }))
}

export async function releaseProjectAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onProject(form, closeProjectSchema, releaseProject, ({ walkId }) => {
    if (walkId) redirect(`/walks/${walkId}`)
    return { status: 'done', message: say('Its promises are freed.') }
  })
}

export async function abandonProjectAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onProject(form, closeProjectSchema, abandonProject)
}

export async function editProjectAction(_previous: FormState, form: FormData): Promise<FormState> {
  return onProject(
    form,
    editProjectSchema,
    ({ occasionKey, ...details }) =>
      editProject({
        ...details,
        forOccasion: occasionKey === undefined ? undefined : { occasionKey, today: calendarDay(new Date()) },
      }),
    () => ({ status: 'done', message: say('Saved.') }),
  )
}

export async function finishProjectAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const settings = await getSettings()
  const input = finishProjectSchema(settings.lengthUnit).safeParse(values)
  const sheet = await readFinishSheet(values.projectId ?? '')
  const { fieldErrors, ...said } = parseUsed(values, sheet?.threads ?? [], settings.threadUnit)
  if (!input.success || Object.keys(fieldErrors).length > 0) {
    const others = input.success ? {} : z.flattenError(input.error).fieldErrors
    return { status: 'invalid', fieldErrors: { ...others, ...fieldErrors }, values }
  }
  const { cloth, offcut1, offcut1Label, offcut1Place, offcut2, offcut2Label, offcut2Place, ...rest } = input.data
  const offcuts = [
    ...(offcut1 ? [{ ...offcut1, label: offcut1Label, placeLabel: offcut1Place }] : []),
    ...(offcut2 ? [{ ...offcut2, label: offcut2Label, placeLabel: offcut2Place }] : []),
  ]
  const photo = await readPhotoField(form.get('photo'))
  if (photo && !photo.ok)
    return { status: 'invalid', fieldErrors: { photo: [describeProjectRefusal(photo.error, settings)] }, values }

  const usedKeptClothIds = (sheet?.keptCloth ?? []).flatMap(({ id }) => (values[keptField(id)] === 'used' ? id : []))
  const result = await finishProject({
    ...rest,
    ...said,
    usedKeptClothIds,
    cloth: cloth === 'used' ? { kind: 'used', offcuts } : { kind: 'not-used' },
    photo: photo?.value ?? null,
  })
  if (!result.ok) {
    const findThread = (threadId: string) => sheet?.threads.find(({ thread }) => thread.id === threadId)?.thread
    return { status: 'refused', message: describeProjectRefusal(result.error, settings, findThread), values }
  }
  revalidatePath('/', 'layout')
  redirect(`/projects/${rest.projectId}`)
}

export async function setPhotoAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = projectSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const settings = await getSettings()
  const photo = await readPhotoField(form.get('photo'))
  if (!photo) return { status: 'invalid', fieldErrors: { photo: [say('Choose a photo first.')] }, values }
  if (!photo.ok) return { status: 'invalid', fieldErrors: { photo: [describeProjectRefusal(photo.error, settings)] }, values }
  const result = await setPhoto({ ...input.data, photo: photo.value })
  if (!result.ok) return { status: 'refused', message: describeProjectRefusal(result.error, settings), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('The photo is kept.') }
}

/** A hoop or needles taken for a project go back where they live. */
export async function putBackNotionAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = putBackNotionSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await putBackNotion(input.data)
  if (!result.ok) return { status: 'refused', message: describeNotionRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
