'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { getAnswers } from '#lib/db/answers/get-answers'
import { addBuyLines } from '#lib/db/buying/add-lines'
import { changeBuyList } from '#lib/db/buying/change-list'
import { closeBuyList, reopenBuyList } from '#lib/db/buying/close-list'
import { keepBuyList } from '#lib/db/buying/keep-list'
import { nameUnsorted } from '#lib/db/buying/name-unsorted'
import { reckonLines } from '#lib/db/buying/reckon-lines'
import { removeBuyLine } from '#lib/db/buying/remove-line'
import { listThreadsCalled } from '#lib/db/thread/find-thread'
import { getViewer } from '#viewer/viewer'
import { describeBuyingRefusal } from '#words/buying'
import { threadTitle } from '#words/thread'
import {
  addLineSchema,
  beginListSchema,
  changeListSchema,
  keepListSchema,
  listSchema,
  removeLineSchema,
  unsortedSchema,
} from './schema'

const refusedWith = (message: string, values: Record<string, string>): FormState => ({ status: 'refused', message, values })

export async function keepListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = keepListSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { designs, lists, projects, withPerhaps, ...list } = input.data
  const [answers, { ownerIds }] = await Promise.all([getAnswers(), getViewer()])
  const asked = { designIds: designs, listIds: lists, projectIds: projects, ownerIds, withPerhaps }
  const { wantedFor, lines } = await reckonLines(answers, asked)
  if (lines.length === 0)
    return refusedWith(
      say('Nothing of it has to be bought as things stand now: it is free, on order or on a list already.'),
      values,
    )
  const result = await keepBuyList({ ...list, wantedFor, lines })
  if (!result.ok) return refusedWith(describeBuyingRefusal(result.error), values)
  revalidatePath('/', 'layout')
  redirect(`/buy/lists/${result.value.listId}`)
}

export async function beginListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = beginListSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await keepBuyList({ ...input.data, wantedFor: [], lines: [] })
  if (!result.ok) return refusedWith(describeBuyingRefusal(result.error), values)
  revalidatePath('/', 'layout')
  redirect(`/buy/lists/${result.value.listId}`)
}

export async function addLineAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = addLineSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { listId, what, ...line } = input.data
  const called = await listThreadsCalled(what)
  if (called.length > 1) {
    const said = say('Several are called that: {called}. Give maker and line too.', {
      called: called.map(threadTitle).join('; '),
    })
    return { status: 'invalid', fieldErrors: { what: [said] }, values }
  }
  const [thread] = called
  const of = { putUpWord: null, putUpStrandTenths: null, packPutUps: 1, isOneLot: false, matchLot: null }
  const result = await addBuyLines({
    listId,
    lines: [
      {
        ...{ ...line, priceMinor: null, text: thread ? null : what },
        thread: thread ? { ...of, threadId: thread.id, isOneLot: thread.line.lotsMatter } : null,
      },
    ],
  })
  if (!result.ok) return refusedWith(describeBuyingRefusal(result.error), values)
  revalidatePath('/', 'layout')
  const said = thread
    ? say('{threadTitle} is on the list.', { threadTitle: threadTitle(thread) })
    : say('On the list in words: {what}. No thread on record is called so.', { what })
  return { status: 'done', message: said }
}

export async function removeLineAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeLineSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeBuyLine(input.data)
  if (!result.ok) return refusedWith(describeBuyingRefusal(result.error), values)
  revalidatePath('/', 'layout')
  return { status: 'done' }
}

export async function changeListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = changeListSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await changeBuyList(input.data)
  if (!result.ok) return refusedWith(describeBuyingRefusal(result.error), values)
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept.') }
}

export async function nameUnsortedAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = unsortedSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  await nameUnsorted(input.data.label)
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept.') }
}

async function end(form: FormData, status: 'done' | 'dropped'): Promise<FormState> {
  const values = textFields(form)
  const input = listSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await closeBuyList({ ...input.data, status })
  if (!result.ok) return refusedWith(describeBuyingRefusal(result.error), values)
  revalidatePath('/', 'layout')
  return { status: 'done' }
}

export const endListAction = async (_previous: FormState, form: FormData): Promise<FormState> => end(form, 'done')
export const dropListAction = async (_previous: FormState, form: FormData): Promise<FormState> => end(form, 'dropped')

export async function reopenListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = listSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await reopenBuyList(input.data)
  if (!result.ok) return refusedWith(describeBuyingRefusal(result.error), values)
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
