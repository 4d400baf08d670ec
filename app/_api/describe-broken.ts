import type { BrokenPromiseNamed } from '#lib/stock/broken-promises'
import type { ThreadRef } from './cover'

/** A promise that stock no longer supports, as the API gives it. */
export const describeBroken = (broken: BrokenPromiseNamed, refOf: (threadId: string) => ThreadRef) => ({
  projectId: broken.projectId,
  title: broken.project.title,
  thread: refOf(broken.thread.id),
  batchId: broken.batchId,
  lot: broken.lot,
  promisedStrandTenths: broken.promisedStrandTenths,
  supportedStrandTenths: broken.supportedStrandTenths,
  why: broken.why,
})
