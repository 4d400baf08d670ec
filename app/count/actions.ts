'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { dropCount, finishCounting, signCount } from '#lib/db/count/close-count'
import { decideLine } from '#lib/db/count/decide-line'
import { type CountEntered, enterCounts } from '#lib/db/count/enter-counts'
import { readCountPlaces, readFullLines } from '#lib/db/count/queries'
import { startCount } from '#lib/db/count/start-count'
import { rememberName } from '#viewer/remembered-name'
import { correctionWords, describeCountRefusal } from '#words/count'
import { countSchema, decideSchema, enteredSchema, foundSchema, outcomeSchema, signedSchema, startCountSchema } from './schema'
import { lineName } from './words'

/** The ids of the lines that fields named `before-id` are about. */
const lineIds = (values: Record<string, string>, before: string): string[] =>
  Object.keys(values).flatMap((name) => (name.startsWith(before) ? [name.slice(before.length)] : []))

export async function startCountAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = startCountSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await startCount(input.data)
  if (!result.ok) return { status: 'refused', message: describeCountRefusal(result.error), values }
  await rememberName(input.data.by)
  revalidatePath('/count', 'layout')
  redirect(`/count/${result.value.countId}`)
}

export async function enterCountsAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = signedSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { countId, by } = input.data
  const entered: CountEntered[] = []
  const fieldErrors: Record<string, string[]> = {}
  for (const lineId of lineIds(values, 'counted-')) {
    const name = `counted-${lineId}`
    if (values[name]?.trim() === '') continue
    const line = enteredSchema.safeParse({ counted: values[name], saw: values[`saw-${lineId}`] })
    if (!line.success) fieldErrors[name] = line.error.issues.map(({ message }) => message)
    else if (line.data.counted !== line.data.saw.counted)
      entered.push({ lineId, counted: line.data.counted, sawCountedAt: line.data.saw.countedAt })
  }
  if (Object.keys(fieldErrors).length > 0) return { status: 'invalid', fieldErrors, values }
  const result = await enterCounts({ countId, by, entered })
  if (!result.ok) return { status: 'refused', message: describeCountRefusal(result.error), values }
  await rememberName(by)
  revalidatePath('/count', 'layout')
  const { written, conflicts, unknownLineIds } = result.value
  const saved =
    written === 0 ? say('Nothing new to save.') : say('Saved: {written, plural, one {# line} other {# lines}}.', { written })
  if (unknownLineIds.length > 0 && conflicts.length === 0)
    return {
      status: 'refused',
      message: say(
        '{saved} Taken off the sheet meanwhile, so not saved: {unknownLineIds, plural, one {# line} other {# lines}}.',
        { saved, unknownLineIds: unknownLineIds.length },
      ),
      values,
    }
  if (conflicts.length === 0) return { status: 'done', message: saved }
  const lines = new Map((await readFullLines(countId, await readCountPlaces(countId))).map((line) => [line.id, line]))
  const others = conflicts.map(({ lineId, counted: figure, countedBy }) => {
    const line = lines.get(lineId)
    return say('{rest} ({countedBy} counted {figure})', {
      rest: line ? lineName(line) : say('one line'),
      countedBy: countedBy ?? say('somebody'),
      figure,
    })
  })
  return {
    status: 'refused',
    message: say(
      '{saved} Counted otherwise meanwhile, so theirs stands: {others}. Look together; saving again puts yours in its place.',
      { saved, others: others.join('; ') },
    ),
    values,
  }
}

export async function addFoundAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = foundSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { countId, by, ...found } = input.data
  const result = await enterCounts({ countId, by, entered: [], found: [found] })
  if (!result.ok) return { status: 'refused', message: describeCountRefusal(result.error), values }
  await rememberName(by)
  revalidatePath('/count', 'layout')
  return { status: 'done', message: say('Written down: {found}.', { found: found.found }) }
}

export async function finishCountingAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = countSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await finishCounting(input.data)
  if (!result.ok) return { status: 'refused', message: describeCountRefusal(result.error), values }
  revalidatePath('/count', 'layout')
  redirect(`/count/${input.data.countId}/differences`)
}

export async function dropCountAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = countSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await dropCount(input.data)
  if (!result.ok) return { status: 'refused', message: describeCountRefusal(result.error), values }
  revalidatePath('/count', 'layout')
  redirect('/count')
}

export async function decideAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = decideSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { countId, by, note } = input.data
  const refusals: string[] = []
  let done = 0
  for (const lineId of lineIds(values, 'outcome-')) {
    if (values[`outcome-${lineId}`] === '') continue
    const line = outcomeSchema.safeParse({ outcome: values[`outcome-${lineId}`], sawCounted: values[`saw-${lineId}`] })
    if (!line.success) return invalid(line.error, values)
    const result = await decideLine({ countId, lineId, by, note, ...line.data, reasonOf: correctionWords })
    if (result.ok) done += 1
    else refusals.push(describeCountRefusal(result.error))
  }
  if (done > 0) {
    await rememberName(by)
    revalidatePath('/', 'layout')
  }
  const carried =
    done === 0 ? say('Nothing was decided.') : say('Decided: {done, plural, one {# line} other {# lines}}.', { done })
  if (refusals.length > 0) return { status: 'refused', message: [carried, ...new Set(refusals)].join(' '), values }
  return done === 0
    ? { status: 'refused', message: say('Choose what to do about a line first.'), values }
    : { status: 'done', message: carried }
}

export async function signCountAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form, 'by')
  const input = signedSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await signCount(input.data)
  if (!result.ok) return { status: 'refused', message: describeCountRefusal(result.error), values }
  revalidatePath('/count', 'layout')
  return { status: 'done', message: say('Signed off by {by}.', { by: input.data.by }) }
}
