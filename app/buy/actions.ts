'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { findCalled } from '#forms/find-called'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { closeOrder } from '#lib/db/order/close-order'
import { editOrder } from '#lib/db/order/edit-order'
import { orderThreads } from '#lib/db/order/order-threads'
import { findOrder } from '#lib/db/order/queries'
import { receiveOrder } from '#lib/db/order/receive-order'
import { getViewer } from '#viewer/viewer'
import { closeOrderSchema, editOrderSchema, orderByHandSchema, orderListSchema, receiveOrderSchema } from './schema'
import { describeOrderRefusal } from './words'

export async function orderListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = orderListSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await orderThreads(input.data)
  if (!result.ok) return { status: 'refused', message: describeOrderRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return {
    status: 'done',
    message: say('Put down as ordered: {orderIds, plural, one {# thread} other {# threads}}.', {
      orderIds: result.value.orderIds.length,
    }),
  }
}

export async function orderByHandAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const { settings } = await getViewer()
  const input = orderByHandSchema({ unit: settings.threadUnit }).safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { thread: text, putUpTenths, orderId, putUps, lot, ...order } = input.data
  const called = await findCalled(text)
  if (!called.ok) return { status: 'invalid', fieldErrors: { thread: [called.error] }, values }
  const thread = called.value
  const putUpStrandTenths = putUpTenths === null ? null : putUpTenths * thread.line.strands
  const result = await orderThreads({ ...order, items: [{ orderId, threadId: thread.id, putUps, putUpStrandTenths, lot }] })
  if (!result.ok) return { status: 'refused', message: describeOrderRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect('/buy/on-order')
}

export async function editOrderAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = editOrderSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await editOrder(input.data)
  if (!result.ok) return { status: 'refused', message: describeOrderRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect('/buy/on-order')
}

export async function receiveOrderAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = receiveOrderSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { place: label, ...received } = input.data
  const order = await findOrder(received.orderId)
  const home = { homePlaceId: null, ...(label !== '' && { homePlaceLabel: label }) }
  const reason = order?.supplier ? say('ordered from {supplier}', { supplier: order.supplier }) : 'ordered'
  const result = await receiveOrder({ ...received, ...home, reason })
  if (!result.ok) return { status: 'refused', message: describeOrderRefusal(result.error), values }
  revalidatePath('/', 'layout')
  redirect('/buy/on-order')
}

export async function closeOrderAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = closeOrderSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const result = await closeOrder(input.data)
  if (!result.ok) return { status: 'refused', message: describeOrderRefusal(result.error), values }
  revalidatePath('/', 'layout')
  return { status: 'done' }
}
