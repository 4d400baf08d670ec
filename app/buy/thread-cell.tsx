import type { ReactNode } from 'react'
import { say } from '#language/say'
import type { BoughtThread } from '#lib/db/order/bought-threads'
import { ThreadName } from '#trade/thread-bar'
import { hexesOf } from '#words/colour'

/** A thread in a list of what to buy, with its line and what else is to be said of it underneath. */
export function ThreadCell({ thread, note }: { thread: BoughtThread; note?: ReactNode }) {
  const { line } = thread
  return (
    <ThreadName
      maker={line.makerName}
      code={thread.code}
      name={thread.name ?? undefined}
      note={
        <>
          {line.name}
          {thread.isLeaving && say('{rest}leaving the range', { rest: line.name && ', ' })}
          {note && (
            <>
              {(line.name || thread.isLeaving) && ' · '}
              {note}
            </>
          )}
        </>
      }
      hexes={hexesOf(thread.lab)}
      dye={line.dyeing === 'solid' ? 'solid' : 'overdyed'}
      href={`/threads/${thread.id}`}
    />
  )
}
