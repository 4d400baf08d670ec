import type { ThreadTag } from '#lib/db/thread/thread-tag'
import { ThreadName } from '#trade/thread-bar'
import { hexesOf } from '#words/colour'

/** A thread in a list: bar, maker, code, name, leading to its page; what else is to be said of it underneath. */
export function ThreadCell({ thread, note }: { thread: ThreadTag; note?: string | null }) {
  return (
    <ThreadName
      maker={thread.makerName}
      code={thread.code}
      name={thread.name ?? undefined}
      note={note ?? undefined}
      href={`/threads/${thread.id}`}
      hexes={hexesOf(thread.lab)}
    />
  )
}
