'use server'

import { redirect } from 'next/navigation'
import { startChoice, stopChoice } from '#lib/db/planning/choice-jobs'
import { mostValueOfDesign } from '#lib/planning/wish-value'
import type { FormState } from '#ui/form'
import { getViewer } from '#viewer/viewer'
import { choiceRefusedWords } from '#words/choice'
import { calendarDay } from '#words/date'
import { jobSchema, startChoiceSchema, valueSchema } from './schema'

/** Begin to choose among the ticked designs and pieces, and go to where it shows how far it is. */
export async function startChoiceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const input = startChoiceSchema.parse({
    from: form.get('from'),
    design: form.getAll('design'),
    piece: form.getAll('piece'),
    seconds: form.get('seconds'),
  })
  const fieldErrors: Record<string, string[]> = {}
  const values = new Map<string, number>()
  for (const designId of input.design) {
    const typed = form.get(`value.${designId}`)
    if (typed === null || typed === '') continue
    const value = valueSchema.safeParse(typed)
    if (value.success) values.set(designId, value.data)
    else fieldErrors[`value.${designId}`] = [`A whole number from 1 to ${mostValueOfDesign}.`]
  }
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors }
  if (input.design.length === 0) return { status: 'refused', message: 'Tick at least one design to choose from.' }
  if (input.piece.length === 0) return { status: 'refused', message: 'Tick at least one piece of cloth to cut from.' }
  const { ownerIds } = await getViewer()
  const asked = { ownerIds, source: input.from, designIds: input.design, pieceIds: input.piece, values }
  const started = startChoice({ ...asked, today: calendarDay(new Date()) }, input.seconds)
  if (!started.ok) return { status: 'refused', message: choiceRefusedWords(started.error) }
  redirect(`/cloth/choose/jobs/${started.value.jobId}`)
}

/** End a search; the best found so far is its answer. */
export async function stopChoiceAction(_previous: FormState, form: FormData): Promise<FormState> {
  const input = jobSchema.safeParse({ jobId: form.get('jobId') })
  if (input.success) await stopChoice(input.data.jobId)
  return { status: 'done' }
}
