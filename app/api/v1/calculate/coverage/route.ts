import { describeCover, type ThreadRef } from '#api/cover'
import { calculateCoverage, type PostedThread, postedLineId, postedThreadId } from '#api/coverage'
import { endpoint, serve } from '#api/serve'
import { coverDesign } from '#lib/coverage/design-cover'
import { needOfList } from '#lib/coverage/need'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { freeStockByThread } from '#lib/stock/free-stock'
import type { ThreadLine } from '#lib/thread/thread'

const owner = 'posted'

const calculate = serve(calculateCoverage, async ({ body }) => {
  const lineById = new Map(
    body.threadLines.map((posted): [string, ThreadLine] => [
      postedLineId(posted),
      {
        id: postedLineId(posted),
        makerId: posted.maker,
        makerName: posted.maker,
        name: posted.line,
        fibre: null,
        strands: posted.strands,
        putUpStrandTenths: posted.putUpStrandTenths,
        putUpWord: 'skein',
        dyeing: 'solid',
        lotsMatter: posted.lotsMatter,
        working: posted.working,
      },
    ]),
  )
  const lines = new Map<string, ThreadLine>()
  const refs = new Map<string, ThreadRef>()
  const register = (thread: PostedThread): { threadId: string; line: ThreadLine } => {
    const threadId = postedThreadId(thread)
    const line = lineById.get(postedLineId(thread)) as ThreadLine
    lines.set(threadId, line)
    refs.set(threadId, { threadId: null, maker: thread.maker, line: thread.line, code: thread.code, name: null })
    return { threadId, line }
  }

  const keyLines = body.keyLines.map(({ symbol, threads, tally }, index) => ({
    id: String(index),
    symbol,
    tally,
    threads: threads.map((thread) => ({
      threadId: register(thread).threadId,
      strands: thread.strands,
      stated: thread.stated,
    })),
  }))
  const promises: StockPromise[] = []
  const batches = body.stash.map((row, index): Batch => {
    const { threadId, line } = register(row)
    const id = String(index).padStart(6, '0')
    if (row.promisedStrandTenths > 0)
      promises.push({ id, batchId: id, projectId: 'other', strandTenths: row.promisedStrandTenths })
    return {
      id,
      threadId,
      ownerId: owner,
      lot: row.lot,
      putUpWord: null,
      putUpStrandTenths: row.putUpStrandTenths ?? line.putUpStrandTenths,
      wholePutUps: row.wholePutUps,
      partStrandTenths: row.partStrandTenths,
      partCertainty: row.partCertainty ?? (row.partStrandTenths > 0 ? 'label' : 'none'),
      homePlaceId: 'home',
      currentPlaceId: row.isOut ? 'away' : 'home',
    }
  })
  const standIns = new Map<string, string[]>()
  for (const { of, use } of body.standIns) {
    const { threadId } = register(of)
    standIns.set(threadId, [...(standIns.get(threadId) ?? []), register(use).threadId])
  }

  const needs = needOfList({
    list: { id: 'posted', designId: 'posted', name: 'posted', keyLines },
    lines,
    advised: body.advised && { count: body.advised.ends, over: body.advised.over, weave: null, insists: false, name: null },
    size: body.stitches && { ...body.stitches, uncertaintyUm: 0, isEstimated: false },
    coverKind: body.coverKind,
    settings: { allowance: body.allowance },
    cloth: body.cloth && { ...body.cloth, isTurned: false },
  })
  const free = freeStockByThread({ batches, promises, ownerIds: [owner] })
  const cover = coverDesign({ needs, free, lines, standIns })
  const answer = describeCover(cover, needs, {
    threadOf: (threadId) => refs.get(threadId) as ThreadRef,
    placeLabelOf: () => null,
  })
  // A posted stash has no places or projects of its own to point at.
  for (const thread of answer.threads) {
    thread.elsewhere = thread.elsewhere.map((held) => ({ ...held, placeId: null, projectId: null }))
  }
  return answer
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: calculate })
