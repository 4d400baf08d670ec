'use server'

import { revalidatePath } from 'next/cache'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { requireRight } from '#lib/db/access/right'
import { setCover } from '#lib/db/chart/set-cover'
import { keepFile } from '#lib/db/file/keep-file'
import { prepareFile } from '#lib/db/file/prepare-file'
import { findFileOf } from '#lib/db/file/queries'
import { removeFile, restoreFile } from '#lib/db/file/remove-file'
import { coverHash } from '#lib/db/photo/cover-hash'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { withPhoto } from '#lib/db/photo/with-photo'
import { getViewer } from '#viewer/viewer'
import { describeChartRefusal } from '../_charts/words'
import { coverSchema, fileVersionSchema, keepFileSchema } from './schema'
import { describeCoverUnfit, describeFileChangeRefusal, describeFileUnfit, describeKeepFileRefusal } from './words'

const chosenFile = (form: FormData): File | null => {
  const file = form.get('file')
  return file instanceof File && file.name !== '' ? file : null
}

const nothingChosen = (): FormState => ({ status: 'invalid', fieldErrors: { file: [say('Choose a file first.')] } })

export async function keepFileAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const values = textFields(form)
  const input = keepFileSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const given = chosenFile(form)
  if (!given) return { ...nothingChosen(), values }
  const file = await prepareFile(given.name, new Uint8Array(await given.arrayBuffer()))
  if (!file.ok)
    return { status: 'invalid', fieldErrors: { file: [say('Not kept: {why}', { why: describeFileUnfit(file.error) })] }, values }
  const { noun, thingId, role, isAnother } = input.data
  const kept = await keepFile({ thing: { noun, id: thingId }, role, file: file.value, pages: null, isAnother })
  if (!kept.ok && kept.error.kind === 'kept-elsewhere')
    return { status: 'invalid', fieldErrors: { isAnother: [describeKeepFileRefusal(kept.error)] }, values }
  if (!kept.ok) return { status: 'refused', message: describeKeepFileRefusal(kept.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept: {name}.', { name: file.value.name }) }
}

const changeFile =
  (change: typeof removeFile) =>
  async (form: FormData): Promise<FormState> => {
    const values = textFields(form)
    const input = fileVersionSchema.safeParse(values)
    if (!input.success) return invalid(input.error, values)
    const file = await findFileOf(input.data.id, (await getViewer()).ownerIds)
    const result = file && (await change(input.data))
    if (!result?.ok) return { status: 'refused', message: describeFileChangeRefusal({ kind: 'changed-meanwhile' }), values }
    revalidatePath('/', 'layout')
    return { status: 'done' }
  }

const remove = changeFile(removeFile)
const restore = changeFile(restoreFile)

export async function removeFileAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  return remove(form)
}

export async function restoreFileAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  return restore(form)
}

export async function setCoverAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const values = textFields(form)
  const input = coverSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const given = chosenFile(form)
  if (!given) return { ...nothingChosen(), values }
  const bytes = new Uint8Array(await given.arrayBuffer())
  const photo = await preparePhoto(bytes)
  if (!photo.ok) return { status: 'invalid', fieldErrors: { file: [describeCoverUnfit(photo.error)] }, values }
  const hash = await coverHash(photo.value.full)
  const { chartId, version } = input.data
  const set = await withPhoto(photo.value, (file) => setCover({ chartId, version, cover: file === null ? null : { file, hash } }))
  if (!set.ok) return { status: 'refused', message: describeChartRefusal(set.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('It is the cover now.') }
}

export async function removeCoverAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const values = textFields(form)
  const input = coverSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const set = await setCover({ ...input.data, cover: null })
  if (!set.ok) return { status: 'refused', message: describeChartRefusal(set.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
