import { threadRef } from '#api/describe-design'
import { getDesignKits } from '#api/kits'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { coverageOfDesign } from '#lib/db/coverage/design-coverage'
import { countDesignKits, listKitBatches } from '#lib/db/coverage/design-kits'

const get = serve(getDesignKits, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const detail = await findDesign(path.designId)
  if (!detail) return notFound('design', path.designId)
  const answers = await getAnswers()
  const over = (query.over ?? null) as 1 | 2 | null
  const coverage = coverageOfDesign(answers, detail, { ownerIds, pieceId: query.piece, over })
  if (!coverage) return notFound('piece of cloth of these owners', query.piece ?? '')
  const listId = query.list ?? coverage.comparison[0]?.listId
  const covered = coverage.lists.find(({ list }) => list.id === listId)
  if (!covered) {
    return query.list === undefined
      ? new Problem('not-found', 'The design has no thread list yet.')
      : notFound('thread list of this design', query.list)
  }
  const { chart } = detail
  const counted = countDesignKits(answers, { covered, chart }, { ownerIds, kits: query.kits, spares: query.spares ?? null })
  const wanted = counted.asked + counted.spares
  const batches = await listKitBatches(answers, path.designId, ownerIds)
  const threadOf = (threadId: string) => threadRef(answers, threadId)
  return {
    ownerIds,
    designId: path.designId,
    list: { id: covered.list.id, name: covered.list.name },
    isIncomplete: covered.list.isIncomplete ?? false,
    asked: counted.asked,
    spares: counted.spares,
    kits: counted.kits,
    stops: counted.stops.map(({ thread, toBuyPutUps }) => ({ thread: threadOf(thread.threadId), toBuyPutUps })),
    threads: counted.threads.map(({ threadId, need, line, lots, lotToMatch, ...thread }) => ({
      ...thread,
      thread: threadOf(threadId),
      certainty: need.certainty,
      putUpStrandTenths: line.putUpStrandTenths,
      lotsMatter: line.lotsMatter,
      lots,
      isOneLot: (lots[0]?.kits ?? 0) >= wanted,
      lotToMatch: lotToMatch?.lot ?? null,
    })),
    beadsPerKit: counted.beadsPerKit,
    charts: counted.charts,
    underWay: batches.map(({ projectId, quantity, status, promisedCount, mixed }) => ({
      projectId,
      quantity,
      status,
      promisedThreadCount: promisedCount,
      mixed: mixed.map(({ threadId, ...one }) => ({ ...one, thread: threadOf(threadId) })),
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
