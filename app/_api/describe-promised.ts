import type { Promised } from '#lib/db/project/promise-for-project'
import { readThreadRefs } from './read-thread-refs'

/** What a project was promised and what it is short of, as the API gives it. */
export async function describePromised({ promised, short }: Promised) {
  const refOf = await readThreadRefs()
  return {
    promised: promised.map(({ threadId, ...promise }) => ({ thread: refOf(threadId), ...promise })),
    short: short.map(({ threadId, ...figures }) => ({ thread: refOf(threadId), ...figures })),
  }
}
