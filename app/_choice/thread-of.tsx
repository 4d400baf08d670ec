import type { ReactNode } from 'react'
import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import { ThreadName } from '#trade/thread-bar'
import { hexesOf } from '#words/colour'

type ThreadOfProps = { threadId: string; answers: Answers; note?: ReactNode }

/** A thread by its bar and full name. */
export function ThreadOf({ threadId, answers: { world }, note }: ThreadOfProps) {
  const thread = world.threads.get(threadId)
  const line = world.lines.get(world.lineOfThread.get(threadId) ?? '')
  if (!thread || !line) return say('a thread that was removed')
  return (
    <ThreadName
      maker={line.makerName}
      code={thread.code}
      name={thread.name ?? undefined}
      note={note ?? line.name}
      hexes={hexesOf(thread.lab)}
      dye={line.dyeing === 'solid' ? 'solid' : 'overdyed'}
      href={`/threads/${threadId}`}
    />
  )
}
