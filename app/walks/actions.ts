'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { bringUpToDate } from '#lib/db/walk/bring-up-to-date'
import { carryOut } from '#lib/db/walk/carry-out'
import { closeWalk } from '#lib/db/walk/close-walk'
import { findWalk } from '#lib/db/walk/queries'
import { startPull } from '#lib/db/walk/start-pull'
import { listed } from '#words/amounts'
import { describeWalkRefusal, leftWords, thingName } from '#words/walk'
import { bagSchema, carryOutSchema, closeWalkSchema, startWalkSchema, walkSchema } from './schema'

export async function startWalkAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = startWalkSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const projectIds = form.getAll('project').filter((id): id is string => typeof id === 'string' && id !== '')
  if (projectIds.length === 0) return { status: 'refused', message: say('Tick what to pull for.'), values }
  const result = await startPull({ ...input.data, projectIds })
  if (!result.ok) return { status: 'refused', message: describeWalkRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect(`/walks/${result.value.walkId}`)
}

export async function carryOutAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = carryOutSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const bags: { projectId: string; label: string }[] = []
  const fieldErrors: Record<string, string[]> = {}
  for (const [name, value] of Object.entries(values)) {
    if (!name.startsWith('bag-')) continue
    const label = bagSchema.safeParse(value)
    if (label.success) bags.push({ projectId: name.slice('bag-'.length), label: label.data })
    else fieldErrors[name] = label.error.issues.map(({ message }) => message)
  }
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  const result = await carryOut({ ...input.data, bags })
  if (!result.ok) return { status: 'refused', message: describeWalkRefusal(result.error), values }
  revalidatePath('/', 'layout')
  const { carried, left, isDone } = result.value
  const done = say(
    '{carried, plural, one {# line} other {# lines}} carried out on the record{isDone, select, yes {; the walk is done.} other {.}}',
    { carried, isDone },
  )
  if (left.length === 0) return { status: 'done', message: done }
  const walk = await findWalk(input.data.walkId)
  const said = left.slice(0, 5).map(({ lineId, why }) => {
    const line = walk?.lines.find(({ id }) => id === lineId)
    return say('{rest}, because {left}', { rest: line ? thingName(line.thing) : say('a line'), left: leftWords[why] })
  })
  if (left.length > said.length) said.push(say('{left} more', { left: left.length - said.length }))
  return { status: 'done', message: say('{done} Left as it was: {said}.', { done, said: listed(said) }) }
}

export async function bringUpToDateAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = walkSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await bringUpToDate(input.data)
  if (!result.ok) return { status: 'refused', message: describeWalkRefusal(result.error), values }
  revalidatePath('/', 'layout')
  const { added, removed } = result.value
  const said =
    added === 0 && removed === 0
      ? say('nothing came or went')
      : say('{added} new, {removed} no longer wanted', { added, removed })
  return { status: 'done', message: say('The open lines are as the record stands now: {said}.', { said }) }
}

async function end(form: FormData, status: 'done' | 'dropped'): Promise<FormState> {
  const values = textFields(form)
  const input = closeWalkSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await closeWalk({ ...input.data, status })
  if (!result.ok) return { status: 'refused', message: describeWalkRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}

export const closeWalkAction = async (_previous: FormState, form: FormData): Promise<FormState> => end(form, 'done')
export const dropWalkAction = async (_previous: FormState, form: FormData): Promise<FormState> => end(form, 'dropped')
