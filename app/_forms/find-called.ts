import { say } from '#language/say'
import { listThreadsCalled, type ThreadNamed } from '#lib/db/thread/find-thread'
import { ok, type Result, refused } from '#lib/result'
import { threadTitle } from '#words/thread'

/** The one thread that a text typed in a form calls, or the sentence that says why it is none. */
export async function findCalled(text: string): Promise<Result<ThreadNamed, string>> {
  const called = await listThreadsCalled(text)
  const [thread] = called
  if (!thread) return refused(say('No thread is called {text}. Give maker and exact code, such as Larkholm 0017.', { text }))
  if (called.length === 1) return ok(thread)
  return refused(
    say('Several are called that: {called}. Give maker and line too.', { called: called.map(threadTitle).join('; ') }),
  )
}
