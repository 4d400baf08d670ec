'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { findCalled } from '#forms/find-called'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { removeOffer } from '#lib/db/offer/remove-offer'
import { saveOffer } from '#lib/db/offer/save-offer'
import { findLine } from '#lib/db/thread/list-lines'
import { getViewer } from '#viewer/viewer'
import { offerSchema, removeOfferSchema } from './schema'
import { describeOfferRefusal } from './words'

async function save(form: FormData): Promise<FormState> {
  const values = textFields(form)
  const [{ settings }, line] = await Promise.all([getViewer(), findLine(values.lineId ?? '')])
  if (!line) return { status: 'refused', message: describeOfferRefusal({ kind: 'no-such-line', lineId: '' }), values }
  const input = offerSchema({ unit: settings.threadUnit, strands: line.strands }).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { thread: text, ...offer } = input.data
  let threadId: string | null = null
  if (text !== null) {
    // A bare code is of this line.
    const called = await findCalled(text)
    const ofLine = called.ok ? called : await findCalled(`${line.makerName} ${line.name} ${text}`)
    if (!ofLine.ok) return { status: 'invalid', fieldErrors: { thread: [called.ok ? '' : called.error] }, values }
    threadId = ofLine.value.id
  }
  const result = await saveOffer({ ...offer, threadId })
  if (!result.ok) return { status: 'refused', message: describeOfferRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('Put down. Lists of what to buy reckon with it.') }
}

export const addOfferAction = async (_previous: FormState, form: FormData): Promise<FormState> => save(form)

export async function changeOfferAction(_previous: FormState, form: FormData): Promise<FormState> {
  const state = await save(form)
  if (state.status === 'done') redirect(`/threads/lines/${textFields(form).lineId}#sold`)
  return state
}

export async function removeOfferAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = removeOfferSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await removeOffer(input.data)
  if (!result.ok) return { status: 'refused', message: describeOfferRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
