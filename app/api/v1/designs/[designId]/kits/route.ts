import { threadRef } from '#api/describe-design'
import { describeKitsCloth } from '#api/describe-kits-cloth'
import { findCoveredList } from '#api/find-covered-list'
import { getDesignKits } from '#api/kits'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { countDesignKits, listKitBatches } from '#lib/db/coverage/design-kits'

const get = serve(getDesignKits, async ({ path, query }) => {
  const found = await findCoveredList(path.designId, query)
  if (found instanceof Problem) return found
  const { ownerIds, answers, detail, covered } = found
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
    cloth: describeKitsCloth(counted.cloth, answers.world.settings.lengthUnit),
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
