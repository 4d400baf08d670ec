'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import type { FormState } from '#forms/form-state'
import { say } from '#language/say'
import { requireRight } from '#lib/db/access/right'
import { startBringIn, startSample, stopBringIn } from '#lib/db/importing/import-jobs'
import { stageFile } from '#lib/db/importing/stage-file'
import { undoImport } from '#lib/db/importing/undo-import'
import { importKinds } from '#lib/importing/fields'
import { errandQuery, nextHref, parseErrand, previewHref, type WaitingFile } from './choices'
import { lookAtFile } from './look-at-file'
import { describeImportRefusal } from './refusal-words'
import { jobIdSchema, parseMappingForm, readAsSchema, stagedIdSchema, undoSchema } from './schema'
import { gatherLeft } from './words'

const textFields = (form: FormData): Record<string, string> =>
  Object.fromEntries([...form].flatMap(([name, value]) => (typeof value === 'string' ? [[name, value]] : [])))

const mostFiles = 20

/** Keeps the files and opens the first table; when one of them holds no table, none is kept. */
export async function uploadAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const files = form.getAll('files').filter((file): file is File => file instanceof File && file.name !== '')
  if (files.length === 0) return invalid('files', say('Choose a file first.'))
  if (files.length > mostFiles) return invalid('files', say('Choose up to {mostFiles} files at once.', { mostFiles }))

  const looked = await Promise.all(
    files.map(async (file) => {
      const bytes = new Uint8Array(await file.arrayBuffer())
      return { name: file.name, bytes, look: await lookAtFile(bytes) }
    }),
  )
  const wrong = looked.flatMap(({ name, look }) => (look.ok ? [] : [`${name}: ${describeImportRefusal(look.error)}`]))
  if (wrong.length > 0) return { status: 'refused', message: say('{wrong} Nothing was changed.', { wrong: wrong.join(' ') }) }

  const tables: (WaitingFile & { turn: number })[] = []
  for (const { name, bytes, look } of looked) {
    const staged = { ...(await stageFile(name, bytes)), fileName: name.slice(0, 200) }
    for (const { sheet, kind } of look.ok ? look.value : []) {
      const turn = kind === null ? importKinds.length : importKinds.indexOf(kind)
      tables.push({ ...staged, turn, ...(sheet !== null && look.ok && look.value.length > 1 && { sheet }) })
    }
  }
  // Sheets of one kind stay in the order of their tabs.
  const inOrder = tables.sort((left, right) => left.turn - right.turn || compare(left.fileName, right.fileName))
  const [first, ...waiting] = inOrder.map(({ turn: _, ...file }): WaitingFile => file)
  if (first === undefined) return invalid('files', say('Choose a file first.'))
  redirect(nextHref([first, ...waiting]))
}

const compare = (left: string, right: string): number => (left === right ? 0 : left < right ? -1 : 1)

/** Look at the file again as another kind, or parted otherwise; its columns are then told anew. */
export async function readAsAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const values = textFields(form)
  const input = readAsSchema.safeParse(values)
  if (!input.success) return { status: 'invalid', fieldErrors: z.flattenError(input.error).fieldErrors, values }
  const { stagedId, kind, separator, ...reading } = input.data
  // How one sheet is laid out says nothing of another.
  const isOtherSheet = values.shownSheet !== undefined && values.shownSheet !== reading.sheet
  const way = isOtherSheet ? { sheet: reading.sheet } : reading
  const choices = { kind, ...(separator && { separator }), ...(Object.keys(way).length > 0 && { reading: way }) }
  redirect(previewHref(stagedId, choices, parseErrand(values).waiting))
}

export async function readThisWayAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const values = textFields(form)
  const stagedId = stagedIdSchema.parse(values.stagedId)
  const read = parseMappingForm(values)
  if (!read.ok) return { status: 'invalid', message: say('Not read yet: something is still needed.'), ...read, values }
  redirect(previewHref(stagedId, read.choices, parseErrand(values).waiting))
}

export async function bringInAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const values = textFields(form)
  const stagedId = stagedIdSchema.parse(values.stagedId)
  const { choices, waiting } = parseErrand(values)
  const { jobId } = await startBringIn(stagedId, choices)
  redirect(`/bring-in/jobs/${jobId}${errandQuery({ stagedId, choices, waiting })}`)
}

export async function stopAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const { jobId } = jobIdSchema.parse(textFields(form))
  await stopBringIn(jobId)
  revalidatePath(`/bring-in/jobs/${jobId}`)
  return { status: 'done' }
}

export async function undoAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('change')
  const { importId } = undoSchema.parse(textFields(form))
  const result = await undoImport(importId)
  if (!result.ok) return { status: 'refused', message: describeImportRefusal(result.error) }
  revalidatePath('/', 'layout')
  const { takenBack, left } = result.value
  redirect(
    `/bring-in/results/${importId}?${new URLSearchParams({ undone: JSON.stringify({ takenBack, left: gatherLeft(left) }) })}`,
  )
}

export async function startSampleAction(_previous: FormState, _form: FormData): Promise<FormState> {
  requireRight('change')
  const { jobId } = await startSample()
  redirect(`/bring-in/jobs/${jobId}?sample=1`)
}

const invalid = (field: string, problem: string): FormState => ({ status: 'invalid', fieldErrors: { [field]: [problem] } })
