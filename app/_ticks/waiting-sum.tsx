'use client'

import { useSyncExternalStore } from 'react'
import { say } from '#language/say'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { onTicks, type TickedList, type WaitingTick, waitingTicks } from './tick-queue'

const none: readonly WaitingTick[] = []
const states = ['done', 'bought', 'instead', 'not there', 'open']

/** What waits on this device for a connection, added up by what was said of it. */
export function WaitingSum({ list, wordOf }: { list: TickedList; wordOf: (status: string) => string }) {
  const { kind, id } = list
  const ticks = useSyncExternalStore(
    onTicks,
    () => waitingTicks({ kind, id }),
    () => none,
  )
  if (ticks.length === 0) return null
  const rows = states.flatMap((status) => {
    const said = ticks.filter((tick) => tick.status === status).length
    const word = wordOf(status)
    return said > 0 ? [{ label: word.charAt(0).toUpperCase() + word.slice(1), figure: said }] : []
  })
  return (
    <Unfold label={say('What will be sent')}>
      <Sums>
        <Sum
          title={say('Waiting on this device')}
          rows={[...rows, { label: say('Ticks'), figure: ticks.length, kind: 'end' }]}
          note={say(
            'Of two ticks of one line the later stands, whoever’s it is. Where that is not yours, it is said here with who did it, so that you can look.',
          )}
        />
      </Sums>
    </Unfold>
  )
}
