import type { ThreadStanding } from '#lib/db/project/pull-list'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { putUpsFor } from '#lib/thread/put-ups'
import { TrayWord } from '#trade/tray'
import { Ledger } from '#ui/ledger'
import { counted, threadLength } from '#words/amounts'
import { ThreadCell } from '../thread-cell'

type StandingTableProps = { threads: readonly ThreadStanding[]; unit: ThreadLengthUnit; isWish: boolean }

/** Need against promise, thread by thread. */
export function StandingTable({ threads, unit, isWish }: StandingTableProps) {
  return (
    <Ledger
      caption="What the project needs of each thread, and what it was promised"
      rows={threads}
      rowKey={(row) => row.thread.id}
      columns={[
        { key: 'thread', head: 'Thread', cell: ({ thread }) => <ThreadCell thread={thread} />, phone: 'lead' },
        {
          key: 'need',
          head: 'Need',
          cell: ({ needStrandTenths, thread }) => threadLength(needStrandTenths, thread.strands, unit),
          isNumeric: true,
          phone: 'labelled',
        },
        {
          key: 'promised',
          head: 'Promised',
          cell: ({ promisedStrandTenths, thread }) => threadLength(promisedStrandTenths, thread.strands, unit),
          isNumeric: true,
          phone: 'labelled',
        },
        { key: 'state', head: 'State', cell: (row) => <State row={row} unit={unit} isWish={isWish} />, phone: 'side' },
      ]}
    />
  )
}

function State({ row, unit, isWish }: { row: ThreadStanding; unit: ThreadLengthUnit; isWish: boolean }) {
  const { needStrandTenths, promisedStrandTenths, moreStrandTenths, putUpStrandTenths, thread } = row
  const want = needStrandTenths - promisedStrandTenths
  if (want <= 0) return <TrayWord state="enough" word="Promised" />
  const toBuy = want - moreStrandTenths
  if (toBuy <= 0) return <TrayWord state="unknown" word={isWish ? 'Free' : 'Free now, not promised'} />
  const putUps = putUpStrandTenths > 0 ? counted(putUpsFor(toBuy, putUpStrandTenths), thread.putUpWord) : null
  return (
    <TrayWord
      state={promisedStrandTenths + moreStrandTenths > 0 ? 'short' : 'none'}
      word={`Short ${threadLength(toBuy, thread.strands, unit)}`}
      note={putUps && `${putUps} to find or buy`}
    />
  )
}
