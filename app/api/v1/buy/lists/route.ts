import { keepBuyListOperation, listBuyListsOperation } from '#api/buy-lists'
import { answerBuyList, describeListedList, newLineOf } from '#api/describe-buy-list'
import { chosenOwners } from '#api/owners'
import { nextAfter } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { keepBuyList } from '#lib/db/buying/keep-list'
import { listBuyLists } from '#lib/db/buying/queries'
import { reckonLines } from '#lib/db/buying/reckon-lines'

const list = serve(listBuyListsOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { after: offset = 0, limit, closed = false } = query
  const { lists, total } = await listBuyLists({ ownerIds, isOpen: !closed }, { offset, limit })
  return { total, lists: lists.map(describeListedList), next: nextAfter(offset + lists.length, total) }
})

const keep = serve(keepBuyListOperation, async ({ body }) => {
  const { designs, lists, projects, withPerhaps, lines, by, ownerId, ...named } = body
  const reckoned = await reckonLines(await getAnswers(), {
    ...{ designIds: designs, listIds: lists, projectIds: projects, ownerIds: [ownerId], withPerhaps },
  })
  const kept = await keepBuyList({
    ...{ ...named, ownerId, wantedFor: reckoned.wantedFor, who: by },
    lines: [...reckoned.lines, ...lines.map(newLineOf)],
  })
  return answerBuyList(kept, kept.ok ? kept.value.listId : '')
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: keep })
