'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { FormState } from '#forms/form-state'
import { invalid } from '#forms/invalid'
import { textFields } from '#forms/text-fields'
import { say } from '#language/say'
import { getAnswers } from '#lib/db/answers/get-answers'
import { addBuyLines } from '#lib/db/buying/add-lines'
import { keepBuyList } from '#lib/db/buying/keep-list'
import { mostLines, type NewLine } from '#lib/db/buying/new-lines'
import { getViewer } from '#viewer/viewer'
import { describeBuyingRefusal } from '#words/buying'
import { chosenThreads } from '../../_listing/chosen-threads'
import { toListSchema } from './to-list-schema'

/** Put the chosen threads on a list to shop by, one that is open or a new one. */
export async function toListAction(_previous: FormState, form: FormData): Promise<FormState> {
  const values = textFields(form)
  const input = toListSchema.safeParse(values)
  if (!input.success) return invalid(input.error, values)
  const { chosen, listId, newListId, title, ownerId, putUps } = input.data
  const refusedWith = (message: string): FormState => ({ status: 'refused', message, values })
  const [{ ownerIds }, { world }] = await Promise.all([getViewer(), getAnswers()])
  const threadIds = await chosenThreads(chosen, ownerIds)
  if (!threadIds || threadIds.length === 0) return refusedWith(say('What was chosen is no longer kept. Choose again.'))
  if (threadIds.length > mostLines) return refusedWith(describeBuyingRefusal({ kind: 'too-many-lines', most: mostLines }))
  const of = { putUpWord: null, putUpStrandTenths: null, packPutUps: 1, matchLot: null }
  const lines = threadIds.map((threadId): NewLine => {
    const isOneLot = world.lines.get(world.lineOfThread.get(threadId) ?? '')?.lotsMatter ?? false
    return { thread: { ...of, threadId, isOneLot }, ...{ text: null, putUps, supplier: null, priceMinor: null, note: null } }
  })
  const result =
    listId === ''
      ? await keepBuyList({ listId: newListId, title: title ?? '', ownerId, wantedFor: [], lines })
      : await addBuyLines({ listId, lines, isOnceEach: true })
  if (!result.ok) return refusedWith(describeBuyingRefusal(result.error))
  revalidatePath('/', 'layout')
  redirect(`/buy/lists/${listId === '' ? newListId : listId}`)
}
