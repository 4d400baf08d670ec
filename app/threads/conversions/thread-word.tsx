import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import { ThreadName } from '#trade/thread-bar'
import { hexesOf } from '#words/colour'

/** A thread by its id, with its bar and its own page. */
export function ThreadWord({ answers: { world }, threadId }: { answers: Answers; threadId: string }) {
  const thread = world.threads.get(threadId)
  const line = world.lines.get(world.lineOfThread.get(threadId) ?? '')
  if (!thread || !line) return <span className="faint">{say('removed thread')}</span>
  return (
    <ThreadName
      maker={line.makerName}
      code={thread.code}
      name={thread.name}
      note={line.name}
      hexes={hexesOf(thread.lab)}
      dye={line.dyeing === 'solid' ? 'solid' : 'overdyed'}
      href={`/threads/${threadId}`}
    />
  )
}
