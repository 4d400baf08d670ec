import 'server-only'
import type { Steps } from '#lib/importing/steps'

/** Longer than this nobody waits for an answer of the same process. */
const turnMs = 12

/**
 * Run long work a little at a time, so that the process answers others in between.
 *
 * @param between  called before others are let in; what it throws ends the work
 */
export async function inTurns<T>(steps: Steps<T>, between: () => void = () => {}): Promise<T> {
  let begun = performance.now()
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
    if (performance.now() - begun < turnMs) continue
    between()
    await new Promise((resolve) => setImmediate(resolve))
    begun = performance.now()
  }
}
