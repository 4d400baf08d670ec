'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { say } from '#language/say'
import { requireRight } from '#lib/db/access/right'
import { repairFrom, startCheck, stopCheck } from '#lib/db/checking/check-jobs'
import { removeSetAside } from '#lib/db/checking/set-aside'
import { describeRepairRefusal } from '#words/repair'
import { textFields } from '../../_forms/text-fields'
import { daySchema, jobSchema, repairSchema } from './schema'

const over = (): FormState => ({ status: 'refused', message: say('Nothing is known of that check any more. Check again.') })

/** Look through the whole collection. */
export async function checkAction(_previous: FormState, _form: FormData): Promise<FormState> {
  requireRight('keep')
  const started = await startCheck()
  if (!started.ok) return { status: 'refused', message: say('The collection is being looked through just now.') }
  redirect(`/settings/check?job=${started.value.jobId}`)
}

export async function stopCheckAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const input = jobSchema.safeParse(textFields(form))
  if (input.success) await stopCheck(input.data.jobId)
  return { status: 'done' }
}

/** Do what was asked about one fault, or about all of a kind. */
export async function repairAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const input = repairSchema.safeParse(textFields(form))
  if (!input.success) return over()
  const { jobId, repair, faultId, faultKind } = input.data
  if (faultId === undefined && faultKind === undefined) return over()
  const done = await repairFrom(jobId, faultId !== undefined ? { repair, faultId } : { repair, faultKind: faultKind as never })
  revalidatePath('/settings/check')
  if (done === null) return over()
  const [one] = done
  if (faultId !== undefined && one && !one.outcome.answer.ok && one.outcome.answer.error.kind !== 'no-longer-there')
    return { status: 'refused', message: describeRepairRefusal(one.outcome.answer.error) }
  return { status: 'done' }
}

/** Take what was set aside on a day off the disk. */
export async function removeSetAsideAction(_previous: FormState, form: FormData): Promise<FormState> {
  requireRight('keep')
  const input = daySchema.safeParse(textFields(form))
  if (!input.success || !(await removeSetAside(input.data.day)))
    return { status: 'refused', message: say('Nothing lies aside from that day any more.') }
  revalidatePath('/settings/check')
  return { status: 'done' }
}
