'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { requireRight } from '#lib/db/access/right'
import { removeArchive, removeGiven } from '#lib/db/archive/archive-files'
import { startBringBack, startTakeOut, stopArchiveJob } from '#lib/db/archive/archive-jobs'
import { tooManyWords } from '#words/archive'
import { archiveJobSchema, archiveNameSchema, givenSchema } from './schema'

export async function takeOutAction(_previous: FormState, _form: FormData): Promise<FormState> {
  requireRight('keep')
  const started = await startTakeOut()
  if (!started.ok) return { status: 'refused', message: tooManyWords() }
  redirect(`/archive/jobs/${started.value.id}`)
}

export async function stopAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { jobId } = archiveJobSchema.parse(textFields(form))
  await stopArchiveJob(jobId)
  revalidatePath(`/archive/jobs/${jobId}`)
  return { status: 'done' }
}

export async function removeArchiveAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { name } = archiveNameSchema.parse(textFields(form))
  await removeArchive(name)
  revalidatePath('/archive')
  return { status: 'done' }
}

export async function bringBackAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { givenId } = givenSchema.parse(textFields(form))
  const started = await startBringBack(givenId)
  if (!started.ok)
    return {
      status: 'refused',
      message:
        started.error.kind === 'no-such-file' ? say('The archive is no longer kept here: choose it again.') : tooManyWords(),
    }
  redirect(`/archive/jobs/${started.value.id}`)
}

export async function forgetGivenAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const { givenId } = givenSchema.parse(textFields(form))
  await removeGiven(givenId)
  redirect('/archive')
}
