'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { findCalled } from '#forms/find-called'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { setProjectSwap } from '#lib/db/project/set-project-swap'
import { addStandIn } from '#lib/db/thread/add-stand-in'
import { readAddress, swapsHref, withPick } from './choices'
import { acceptForGoodSchema, acceptForProjectSchema, tryThreadSchema } from './schema'
import { describeProjectSwapRefusal, describeStandInRefusal } from './words'

export async function acceptForProjectAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = acceptForProjectSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await setProjectSwap(input.data)
  if (!result.ok) return { status: 'refused', message: describeProjectSwapRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Kept with the project.') }
}

export async function acceptForGoodAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = acceptForGoodSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await addStandIn(input.data)
  if (!result.ok) return { status: 'refused', message: describeStandInRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('It may stand in from now on, in every design.') }
}

/** Choose a thread by its name; the page then judges it. */
export async function tryThreadAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = tryThreadSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { designId, threadId, address, standIn } = input.data
  const called = await findCalled(standIn)
  if (!called.ok) return { status: 'invalid', fieldErrors: { standIn: [called.error] }, values }
  const query = new URLSearchParams(address)
  const said = (name: string) => (query.getAll(name).length > 1 ? query.getAll(name) : query.get(name))
  const before = readAddress(Object.fromEntries([...query.keys()].map((name) => [name, said(name)])))
  redirect(swapsHref(designId, withPick(before, threadId, called.value.id)))
}
