// Runs in a worker thread, one request each: the search holds its thread until it is done. Bundled by prisma/bundle-workers.mjs.
import { parentPort, workerData } from 'node:worker_threads'
import type { CutPlan, CutRequest } from '#lib/cloth/cut-plan'
import { searchCuts } from '#lib/cloth/cutting/search-cuts'

export type CutWork = { request: CutRequest; timeLimitSeconds: number }
export type CutPosted = { kind: 'better'; plan: CutPlan } | { kind: 'ended'; plan: CutPlan; isOutOfTime: boolean }

const { request, timeLimitSeconds } = workerData as CutWork
const post = (posted: CutPosted) => parentPort?.postMessage(posted)

const isNews = (plan: CutPlan, before: CutPlan | null): boolean =>
  before === null ||
  plan.value !== before.value ||
  plan.valueBound !== before.valueBound ||
  plan.bound !== before.bound ||
  plan.isProved !== before.isProved ||
  plan.cutCount !== before.cutCount ||
  plan.wasteUm2 !== before.wasteUm2 ||
  plan.largestOffcutsUm2 !== before.largestOffcutsUm2

const until = performance.now() + timeLimitSeconds * 1_000
const search = searchCuts(request)
let last: CutPlan | null = null
for (;;) {
  const step = search.next()
  if (step.done) {
    post({ kind: 'ended', plan: step.value, isOutOfTime: false })
    break
  }
  // A plan that is made better in place is held against a copy of what was posted.
  if (isNews(step.value, last)) {
    last = { ...step.value }
    post({ kind: 'better', plan: step.value })
  }
  if (performance.now() > until) {
    post({ kind: 'ended', plan: step.value, isOutOfTime: true })
    break
  }
}
