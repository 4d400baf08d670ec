import { placeRef } from '#api/collection'
import { namedThread } from '#api/describe-stock'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getThreadAbout } from '#api/thread-about'
import { readThreadStory } from '#lib/db/movement/thread-story'
import { findThread } from '#lib/db/thread/find-thread'
import { listThreadUses } from '#lib/db/thread/thread-uses'
import { listWhereabouts } from '#lib/db/thread/thread-whereabouts'

const projectRef = ({ id, title }: { id: string; title: string }) => ({ projectId: id, title })

const get = serve(getThreadAbout, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const thread = await findThread(path.threadId, { ownerIds })
  if (!thread) return notFound('thread', path.threadId)
  const [story, uses, whereabouts] = await Promise.all([
    readThreadStory(thread.id, { ownerIds, page: 1 }),
    listThreadUses(thread.id, { ownerIds, page: query.designsPage }),
    listWhereabouts([thread.id], ownerIds),
  ])
  const said = (opinion: (typeof thread.opinions)[number]) => ({
    source: opinion.sourceName,
    thread: namedThread(opinion.thread),
  })
  return {
    ownerIds,
    thread: namedThread(thread),
    family: thread.family,
    isLeaving: thread.isLeaving,
    minimumPutUps: thread.minimumPutUps,
    note: thread.note,
    owners: thread.owners.map(({ ownerId, ownerName, stock }) => ({
      ownerId,
      name: ownerName,
      ownedStrandTenths: stock.ownedStrandTenths,
      outStrandTenths: stock.outStrandTenths,
      promisedStrandTenths: stock.promisedStrandTenths,
      freeStrandTenths: stock.freeStrandTenths,
      wholePutUps: stock.wholePutUps,
      isSomeOwned: stock.isSomeOwned,
    })),
    whereabouts: (whereabouts.get(thread.id) ?? []).map(({ batchId, lot, wholePutUps, isOut, ...one }) => ({
      batchId,
      lot,
      wholePutUps,
      isOut,
      home: placeRef(one.home),
      current: placeRef(one.current),
      outSince: one.outSince?.toISOString() ?? null,
      inBagOf: one.inBagOf.map(projectRef),
      promisedTo: one.promisedTo.map(projectRef),
    })),
    projects: thread.projects.map(({ id, bag, outSince, ...project }) => ({
      projectId: id,
      ...project,
      bag: placeRef(bag),
      outSince: outSince?.toISOString() ?? null,
    })),
    orders: thread.orders.map(({ id, ownerName: _ownerName, ...order }) => ({ orderId: id, ...order })),
    formerHomes: story.formerHomes.map(({ place, until, batchIds }) => ({
      place: { placeId: place.id, label: place.label },
      until: until.toISOString(),
      batchIds,
    })),
    designCount: uses.designCount,
    waitingCount: uses.waitingCount,
    designs: uses.designs.map(({ id, title, waits, lists }) => ({
      designId: id,
      title,
      waits,
      lists: lists.map(({ id: listId, name, needStrandTenths, shortStrandTenths }) => ({
        listId,
        name,
        needStrandTenths,
        shortStrandTenths,
      })),
    })),
    opinions: thread.opinions.map(said),
    opinionsFor: thread.opinionsFor.map(said),
    barcodes: thread.barcodes.map(({ code }) => code),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
