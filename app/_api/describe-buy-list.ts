import type { z } from 'zod'
import type { BuyingRefused } from '#lib/db/buying/buying-refusal'
import type { NewLine } from '#lib/db/buying/new-lines'
import { type BuyListNews, findBuyList, type ListedList, type ShownLine } from '#lib/db/buying/queries'
import type { Result } from '#lib/result'
import { describeBuyingRefusal } from '#words/buying'
import type { getBuyListKept, NewShopLine } from './buy-lists'
import { placeRef } from './collection'
import { namedThread } from './describe-stock'
import { notFound, Problem } from './problem'

export const describeListedList = ({ id, ownerName: _ownerName, startedAt, closedAt, ...list }: ListedList) => ({
  ...list,
  ...{ listId: id, startedAt: startedAt.toISOString(), closedAt: closedAt?.toISOString() ?? null },
})

const describeLine = ({ id, position: _position, thread, instead, tickedAt, isCarried, home, ...line }: ShownLine) => ({
  ...line,
  ...{ lineId: id, thread: thread && namedThread(thread), instead: instead && namedThread(instead) },
  ...{ tickedAt: tickedAt?.toISOString() ?? null, isInStock: isCarried, home: placeRef(home) },
})

/** A list with its lines, or that there is none. */
export async function describeBuyList(listId: string): Promise<z.input<typeof getBuyListKept.answer> | Problem> {
  const found = await findBuyList(listId)
  if (!found) return notFound('list', listId)
  const { list, progress, lines, unsorted, ...rest } = found
  return { ...describeListedList({ ...list, progress }), ...rest, unsorted: placeRef(unsorted), lines: lines.map(describeLine) }
}

/** The list once something was done to it, or why nothing was. */
export const answerBuyList = (done: Result<unknown, BuyingRefused>, listId: string) =>
  done.ok ? describeBuyList(listId) : describeBuyingProblem(done.error)

export const describeBuyNews = ({ lines, ...news }: BuyListNews) => ({
  ...news,
  lines: lines.map(({ id, tickedAt, isCarried, ...line }) => ({
    ...line,
    ...{ lineId: id, tickedAt: tickedAt?.toISOString() ?? null, isInStock: isCarried },
  })),
})

export const newLineOf = ({
  threadId,
  text,
  putUpWord,
  putUpStrandTenths,
  packPutUps,
  isOneLot,
  matchLot,
  ...line
}: NewShopLine): NewLine => ({
  ...line,
  text: text ?? null,
  thread: threadId === undefined ? null : { threadId, putUpWord, putUpStrandTenths, packPutUps, isOneLot, matchLot },
})

/** Why nothing was done, as the API says it. */
export function describeBuyingProblem(refusal: BuyingRefused): Problem {
  if (refusal.kind === 'no-such-list') return notFound('list', refusal.listId)
  if (refusal.kind === 'no-such-line') return notFound('line of this list', refusal.lineId)
  return new Problem('refused', describeBuyingRefusal(refusal))
}
