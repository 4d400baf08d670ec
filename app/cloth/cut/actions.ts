'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { carryOutCut } from '#lib/db/cut-plan/carry-out-cut'
import { stopCutJob } from '#lib/db/cut-plan/cut-jobs'
import { giveUpCut } from '#lib/db/cut-plan/give-up-cut'
import { keepCutPlan } from '#lib/db/cut-plan/keep-cut-plan'
import { findCutPlan } from '#lib/db/cut-plan/queries'
import { findCut, startCut } from '#lib/db/cut-plan/start-cut'
import { getViewer } from '#viewer/viewer'
import { describeCutRefusal } from '#words/cut-plan'
import { cutQuery, type Fields } from './choices'
import { readForm } from './read-form'
import { carryOutSchema, jobSchema, keepSchema, planSchema } from './schema'

/** Begin to search, as the form has it; back to the form with what is wrong when it cannot begin. */
export async function beginAction(form: FormData): Promise<void> {
  const fields: Fields = Object.fromEntries([...new Set(form.keys())].map((name) => [name, form.getAll(name).map(String)]))
  const { asked, form: read, viewer } = await readForm(fields)
  const query = cutQuery(read)
  const { ownerIds, settings } = viewer
  const started = asked && (await startCut(asked, { ownerIds, settings, timeLimitSeconds: read.seconds }))
  if (started?.ok) redirect(`/cloth/cut/jobs/${started.value.id}?${query}`)
  redirect(`/cloth/cut/new?${query}&${started?.error.kind === 'too-many-at-once' ? 'busy' : 'tried'}=1`)
}

export async function stopAction(_previous: FormState, form: FormData): Promise<FormState> {
  const input = jobSchema.safeParse(textFields(form))
  if (input.success) await stopCutJob(input.data.jobId)
  return { status: 'done' }
}

export async function keepAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = keepSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const job = await findCut(input.data.jobId)
  if (!job?.plan) return { status: 'refused', message: say('What was found is not in memory any more. Search again.'), values }
  const kept = await keepCutPlan({ title: input.data.title, about: job.about, request: job.request, plan: job.plan })
  if (!kept.ok) return refusal(kept.error, values)
  revalidatePath('/', 'layout')
  redirect(`/cloth/cut/${kept.value.planId}`)
}

export async function giveUpAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = planSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const given = await giveUpCut(input.data)
  if (!given.ok) return refusal(given.error, values)
  revalidatePath('/', 'layout')
  redirect(`/cloth/cut/${input.data.planId}`)
}

export async function carryOutAction(_previous: FormState, form: FormData): Promise<FormState> {
  const { settings } = await getViewer()
  const values = textFields(form)
  const named = planSchema.safeParse(values)
  const plan = named.success ? await findCutPlan(named.data.planId) : null
  if (!plan) return { status: 'refused', message: say('There is no such plan of cuts.'), values }
  const input = carryOutSchema(plan.plan.layouts, settings.lengthUnit).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const done = await carryOutCut(input.data)
  if (!done.ok) return refusal(done.error, values)
  revalidatePath('/', 'layout')
  redirect(`/cloth/cut/${input.data.planId}`)
}

async function refusal(error: Parameters<typeof describeCutRefusal>[0], values: Record<string, string>): Promise<FormState> {
  const { settings } = await getViewer()
  return { status: 'refused', message: describeCutRefusal(error, settings.lengthUnit), values }
}
