'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import { idText, versionText } from '#forms/fields'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import type { LinePlace } from '#lib/chart/key-text/teach'
import { requireRight } from '#lib/db/access/right'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type PreparedFile, prepareFile } from '#lib/db/file/prepare-file'
import { type Corrected, type CorrectRefusal, correctReading, undoCorrection } from '#lib/db/reading/correct-reading'
import { dropReading, findStagedReading } from '#lib/db/reading/reading-store'
import { saveReading } from '#lib/db/reading/save-reading'
import { readAgain, readFiles, readText, stopStagedReading } from '#lib/db/reading/start-reading'
import { undoSavedReading } from '#lib/db/reading/undo-saved-reading'
import type { Result } from '#lib/result'
import { getViewer } from '#viewer/viewer'
import { correctionsSchema, type SentCorrection } from './correction-schema'
import { type ReviewShown, shownReview, type ThreadShown, threadShown } from './review-shown'
import { readSaveForm } from './save-form-schema'
import { describeCorrectRefusal, describeSaveRefusal, describeTextUnfit, describeUndoRefusal, describeUnfitFile } from './words'

const startSchema = z.object({ text: z.string().default(''), designId: idText.or(z.literal('')).default('') })

/** Whose a new reading is: the first of those whose goods are looked at. */
async function startFields(form: FormData) {
  const { ownerIds } = await getViewer()
  const { text, designId } = startSchema.parse(textFields(form))
  return { text, designId: designId || null, ownerId: ownerIds[0] ?? null }
}

const nobodyOwns = (): FormState => ({
  status: 'refused',
  message: say('There is no owner yet. Add one in the settings first: your own stash, or the shop.'),
})

export async function readTextAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const { text, designId, ownerId } = await startFields(form)
  if (ownerId === null) return nobodyOwns()
  const read = await readText({ text, ownerId, designId })
  if (!read.ok) return { status: 'invalid', fieldErrors: { text: [describeTextUnfit(read.error)] }, values: { text } }
  redirect(`/charts/read/${read.value.id}`)
}

const mostFiles = 40

/** Keeps the files and begins to read them; when one of them cannot be read at all, none is kept. */
export async function readFilesAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const { designId, ownerId } = await startFields(form)
  if (ownerId === null) return nobodyOwns()
  const given = form.getAll('files').filter((file): file is File => file instanceof File && file.name !== '')
  if (given.length === 0) return { status: 'invalid', fieldErrors: { files: [say('Choose a file first.')] } }
  if (given.length > mostFiles)
    return { status: 'invalid', fieldErrors: { files: [say('Choose up to {mostFiles} files at once.', { mostFiles })] } }
  const files: PreparedFile[] = []
  const wrong: string[] = []
  for (const file of given) {
    const prepared = await prepareFile(file.name, new Uint8Array(await file.arrayBuffer()))
    if (prepared.ok) files.push(prepared.value)
    else wrong.push(describeUnfitFile(file.name, prepared.error))
  }
  if (wrong.length > 0) return { status: 'refused', message: say('{wrong} Nothing was read.', { wrong: wrong.join(' ') }) }
  const [first, ...others] = await readFiles({ files, ownerId, designId })
  // It may lead back to the page it came from.
  revalidatePath('/charts/read', 'layout')
  if (first && others.length === 0) redirect(`/charts/read/${first.id}`)
  // A redirect to another part of the same page would leave the form waiting.
  return {
    status: 'done',
    message: say('{files} files are kept, and are read one after another; they stand under Readings.', { files: files.length }),
  }
}

const readingSchema = z.object({ readingId: idText })

export async function stopReadingAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const { readingId } = readingSchema.parse(textFields(form))
  await stopStagedReading(readingId, (await getViewer()).ownerIds)
  revalidatePath('/charts/read', 'layout')
  return { status: 'done' }
}

export async function readAgainAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const { readingId } = readingSchema.parse(textFields(form))
  const again = await readAgain(readingId, (await getViewer()).ownerIds)
  if (!again.ok) return { status: 'refused', message: describeCorrectRefusal(again.error) }
  revalidatePath('/charts/read', 'layout')
  return { status: 'done' }
}

export async function dropReadingAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const { readingId } = readingSchema.parse(textFields(form))
  const { ownerIds } = await getViewer()
  const staged = await findStagedReading(readingId, ownerIds)
  if (staged?.state.kind === 'reading' || staged?.state.kind === 'waiting') await stopStagedReading(readingId, ownerIds)
  if (staged) await dropReading(readingId)
  revalidatePath('/charts/read', 'layout')
  redirect('/charts/read')
}

/** A reading after a change, or why it was not changed; then with how it stands now, where it is there. */
export type CorrectAnswer =
  | { ok: true; shown: ReviewShown; changed: LinePlace[] }
  | { ok: false; message: string; shown: ReviewShown | null }

const whichSchema = z.object({ id: idText, version: versionText })

export async function correctAction(sent: {
  id: string
  version: number
  corrections: readonly SentCorrection[]
}): Promise<CorrectAnswer> {
  requireRight('change')
  const which = whichSchema.parse(sent)
  const corrections = correctionsSchema.safeParse(sent.corrections)
  const { ownerIds } = await getViewer()
  if (!corrections.success)
    return { ok: false, message: say('That cannot be read. Give it another way.'), shown: await standing(which.id, ownerIds) }
  return answerOf(which.id, ownerIds, await correctReading({ ...which, ownerIds, corrections: corrections.data }))
}

export async function undoCorrectionAction(sent: { id: string; version: number }): Promise<CorrectAnswer> {
  const which = whichSchema.parse(sent)
  const { ownerIds } = await getViewer()
  return answerOf(which.id, ownerIds, await undoCorrection({ ...which, ownerIds }))
}

async function answerOf(
  id: string,
  ownerIds: readonly string[],
  result: Result<Corrected, CorrectRefusal>,
): Promise<CorrectAnswer> {
  if (result.ok) return { ok: true, shown: await shownReview(result.value.staged), changed: result.value.changed }
  return { ok: false, message: describeCorrectRefusal(result.error), shown: await standing(id, ownerIds) }
}

async function standing(id: string, ownerIds: readonly string[]): Promise<ReviewShown | null> {
  const staged = await findStagedReading(id, ownerIds)
  return staged?.review && staged.state.kind === 'read' ? shownReview(staged) : null
}

export type ThreadFound = ThreadShown & { id: string }
const threadsShown = 8

/** Threads of the collection by some words: a code, a name, a maker. */
export async function findThreadsAction(words: string): Promise<ThreadFound[]> {
  requireRight('change')
  const asked = z.string().trim().max(100).catch('').parse(words)
  if (asked === '') return []
  const { search, world } = await getAnswers()
  const { hits } = search.search(asked, { limit: threadsShown, noun: 'thread' })
  return hits.flatMap(({ id }) => {
    const thread = world.threads.get(id.slice('thread:'.length))
    const line = thread && world.lines.get(thread.lineId)
    if (!line) return []
    return { id: thread.id, ...threadShown(thread, line) }
  })
}

export async function saveReadingAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const values = textFields(form)
  const viewer = await getViewer()
  const read = await readSaveForm(values, viewer)
  if (!read.ok) return 'fieldErrors' in read.error ? { status: 'invalid', ...read.error, values } : invalid(read.error, values)
  const saved = await saveReading({ ...read.value, ownerIds: viewer.ownerIds })
  if (!saved.ok) {
    const message = describeSaveRefusal(saved.error)
    if (saved.error.kind === 'title-held') return { status: 'invalid', fieldErrors: { isAnother: [message] }, values }
    if (saved.error.kind === 'kept-elsewhere') return { status: 'invalid', fieldErrors: { isAnotherFile: [message] }, values }
    if (saved.error.kind === 'lines-lack') return { status: 'invalid', fieldErrors: { leavesOut: [message] }, values }
    return { status: 'refused', message, values }
  }
  revalidatePath('/', 'layout')
  redirect(`/charts/read/${read.value.id}`)
}

export async function undoSavedReadingAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const { changeId } = z.object({ changeId: idText }).parse(textFields(form))
  const undone = await undoSavedReading({ changeId })
  if (!undone.ok) return { status: 'refused', message: describeUndoRefusal(undone.error) }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Taken back.') }
}
