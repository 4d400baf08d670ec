import 'server-only'
import { setImmediate } from 'node:timers/promises'
import type { CutPlan, CutRequest } from '#lib/cloth/cut-plan'
import { searchCuts } from '#lib/cloth/cutting/search-cuts'

/** Others get their turn after so much work on end. */
const turnMs = 15

/**
 * Search for a plan of cuts until nothing is left to try or the time is up, giving way to other requests all along.
 *
 * @param until  when to stop, by the clock of `performance.now()`; the best plan so far is then the answer, if there is one
 * @throws the signal's reason when it is aborted
 */
export async function cutUntil(
  request: CutRequest,
  { until, signal }: { until: number; signal?: AbortSignal | undefined },
): Promise<CutPlan | null> {
  const search = searchCuts(request)
  let best: CutPlan | null = null
  let turnBegan = performance.now()
  for (;;) {
    signal?.throwIfAborted()
    const { value, done } = search.next()
    best = value
    if (done) return best
    const now = performance.now()
    if (now >= until) return best
    if (now - turnBegan < turnMs) continue
    await setImmediate()
    turnBegan = performance.now()
  }
}
