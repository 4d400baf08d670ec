import { getAnswers } from '#lib/db/answers/get-answers'
import type { ThreadRef } from './cover'
import { threadRef } from './describe-design'

/** Threads by their names, as the collection stands now. */
export async function readThreadRefs(): Promise<(threadId: string) => ThreadRef> {
  const answers = await getAnswers()
  return (threadId) => threadRef(answers, threadId)
}
