'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { say } from '#language/say'
import { requireRight } from '#lib/db/access/right'
import { startBackupJob, stopBackupJob } from '#lib/db/backup/backup-jobs'
import { changeBackupSettings } from '#lib/db/backup/change-backup-settings'
import { removeBackup } from '#lib/db/backup/list-backups'
import { describeBackupRefusal } from '#words/backup'
import { invalid } from '../../_forms/invalid'
import { textFields } from '../../_forms/text-fields'
import { jobSchema, nameSchema, restoreWord, settingsFormSchema } from './schema'

const busy = (): FormState => ({
  status: 'refused',
  message: say('Something is being made, checked or restored just now. Wait for it, or stop it.'),
})
const gone: FormState = { status: 'refused', message: describeBackupRefusal({ kind: 'no-such-backup' }) }

/** Make a backup now, and check it. */
export async function backUpAction(_previous: FormState, _form: FormData): Promise<FormState> {
  requireRight('keep')
  const started = await startBackupJob({ verb: 'make', kind: 'asked' })
  if (!started.ok) return busy()
  redirect(`/settings/backups?job=${started.value.jobId}`)
}

/** Restore a backup to a scratch place and look through it. */
export async function checkBackupAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const input = nameSchema.safeParse(textFields(form))
  if (!input.success) return gone
  const started = await startBackupJob({ verb: 'check', name: input.data.name })
  if (!started.ok) return busy()
  redirect(`/settings/backups?job=${started.value.jobId}`)
}

/** Put a backup in the place of what is there, once the word was typed. */
export async function restoreAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = textFields(form)
  const input = nameSchema.safeParse(values)
  if (!input.success) return gone
  if ((values.word ?? '').trim().toLowerCase() !== restoreWord)
    return { status: 'invalid', fieldErrors: { word: [say('Type the word {restoreWord} to go on.', { restoreWord })] }, values }
  const started = await startBackupJob({ verb: 'restore', name: input.data.name })
  if (!started.ok) return busy()
  redirect(`/settings/backups?job=${started.value.jobId}`)
}

export async function stopBackupAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const input = jobSchema.safeParse(textFields(form))
  if (input.success) await stopBackupJob(input.data.jobId)
  return { status: 'done' }
}

export async function removeBackupAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const input = nameSchema.safeParse(textFields(form))
  if (!input.success || !(await removeBackup(input.data.name))) return gone
  revalidatePath('/settings/backups')
  redirect('/settings/backups')
}

/** Keep when, where and how many. */
export async function saveBackupSettingsAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const values = textFields(form)
  const input = settingsFormSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { isScheduled, hour, folder, days, weeks, months } = input.data
  const kept = await changeBackupSettings({
    ...{ isScheduled: isScheduled !== undefined, hour, keeping: { days, weeks, months } },
    folder: folder === '' ? null : folder,
  })
  if (!kept.ok)
    return kept.error.kind === 'folder-missing'
      ? { status: 'invalid', fieldErrors: { folder: [say('Give the whole path of a folder that is there.')] }, values }
      : { status: 'invalid', fieldErrors: { folder: [describeBackupRefusal(kept.error)] }, values }
  revalidatePath('/settings/backups')
  return { status: 'done', message: say('Kept.') }
}
