'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { borrowThings } from '#lib/db/loan/borrow'
import { closeLoan } from '#lib/db/loan/close-loan'
import { extendLoan } from '#lib/db/loan/extend-loan'
import { lendThings } from '#lib/db/loan/lend'
import type { LoanRefusal } from '#lib/db/loan/loan-refusal'
import { sendAway } from '#lib/db/loan/send'
import { takeBack } from '#lib/db/loan/take-back'
import type { Result } from '#lib/result'
import { describeLoanRefusal } from '#words/loan'
import { borrowSchema, closeSchema, extendSchema, lendSchema, readThings, sendSchema, takeBackSchema } from './schema'

type Values = Record<string, string>

const refusedWith = (error: LoanRefusal, values: Values): FormState => ({
  status: 'refused',
  message: describeLoanRefusal(error),
  values,
})

/** On to the loan just written. */
function openedAnswer(result: Result<{ loanId: string }, LoanRefusal>, values: Values): FormState {
  if (!result.ok) return refusedWith(result.error, values)
  revalidatePath('/', 'layout')
  redirect(`/loans/${result.value.loanId}`)
}

export async function lendAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = lendSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return openedAnswer(await lendThings({ ...input.data, things: readThings(values) }), values)
}

export async function sendAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = sendSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return openedAnswer(await sendAway({ ...input.data, things: readThings(values) }), values)
}

export async function borrowAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = borrowSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  return openedAnswer(await borrowThings({ ...input.data, things: readThings(values) }), values)
}

export async function takeBackAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = takeBackSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const lineIds = Object.keys(values).flatMap((name) => (name.startsWith('line:') ? [name.slice('line:'.length)] : []))
  if (lineIds.length === 0) return { status: 'refused', message: say('Tick what came back.'), values }
  const result = await takeBack({ ...input.data, lineIds })
  if (!result.ok) return refusedWith(result.error, values)
  revalidatePath('/', 'layout')
  const { left } = result.value
  return {
    status: 'done',
    message:
      left === 0
        ? say('All of it is back.')
        : say('Noted; {left, plural, one {# thing} other {# things}} still to come.', { left }),
  }
}

export async function extendAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = extendSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await extendLoan(input.data)
  if (!result.ok) return refusedWith(result.error, values)
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('The new day is noted.') }
}

export async function closeAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = closeSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await closeLoan(input.data)
  if (!result.ok) return refusedWith(result.error, values)
  revalidatePath('/', 'layout')
  return { status: 'done', message: say('It is settled.') }
}
