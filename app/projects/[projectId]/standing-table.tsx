import { kitsFrom } from '#lib/coverage/kit-cuts'
import type { ThreadStanding } from '#lib/db/project/pull-list'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { putUpsFor } from '#lib/thread/put-ups'
import { TrayWord } from '#trade/tray'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { counted, listed, threadLength } from '#words/amounts'
import { threadName } from '#words/thread'
import { ThreadCell } from '../../_things/thread-cell'

type StandingTableProps = { threads: readonly ThreadStanding[]; unit: ThreadLengthUnit; isWish: boolean; projectId: string }

/** Whether what is promised is less than what is needed; of a kit batch, counted in kits, for a cut must not be joined. */
export const isShort = ({ kits, promisedStrandTenths, needStrandTenths }: ThreadStanding): boolean =>
  kits ? kits.promised < kits.copies : promisedStrandTenths < needStrandTenths

/** Whether more could be promised now. */
export const hasMore = ({ kits, moreStrandTenths }: ThreadStanding): boolean => (kits ? kits.more > 0 : moreStrandTenths > 0)

/** Need against promise, thread by thread. */
export function StandingTable({ threads, unit, isWish, projectId }: StandingTableProps) {
  return (
    <Ledger
      caption="What the project needs of each thread, and what it was promised"
      rows={threads}
      rowKey={(row) => row.thread.id}
      columns={[
        {
          key: 'thread',
          head: 'Thread',
          cell: ({ thread, insteadOf }) => (
            <ThreadCell thread={thread} note={insteadOf.length > 0 ? `instead of ${listed(insteadOf.map(threadName))}` : null} />
          ),
          phone: 'lead',
        },
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
        {
          key: 'choose',
          head: 'Choose',
          headIsHidden: true,
          cell: ({ thread }) =>
            !isWish && (
              <Link href={`/projects/${projectId}/threads/${thread.id}`}>
                Choose<span className="vh"> which {threadName(thread)} is promised</span>
              </Link>
            ),
          isAtEnd: true,
          phone: 'line',
          isOffPaper: true,
        },
      ]}
    />
  )
}

function State({ row, unit, isWish }: { row: ThreadStanding; unit: ThreadLengthUnit; isWish: boolean }) {
  const { needStrandTenths, promisedStrandTenths, moreStrandTenths, putUpStrandTenths, thread } = row
  if (row.kits) return <KitState kits={row.kits} cutStrandTenths={needStrandTenths / row.kits.copies} row={row} isWish={isWish} />
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

type KitStateProps = {
  kits: NonNullable<ThreadStanding['kits']>
  cutStrandTenths: number
  row: ThreadStanding
  isWish: boolean
}

/** As `State`, counted in kits. */
function KitState({ kits, cutStrandTenths, row, isWish }: KitStateProps) {
  const { putUpStrandTenths, thread } = row
  const want = kits.copies - kits.promised
  if (want <= 0) return <TrayWord state="enough" word="Promised" note={`for ${counted(kits.copies, 'kit')}`} />
  const toBuy = want - kits.more
  if (toBuy <= 0) return <TrayWord state="unknown" word={isWish ? 'Free' : 'Free now, not promised'} />
  const full = { putUpStrandTenths, wholePutUps: 1, partStrandTenths: 0 }
  const perPutUp = putUpStrandTenths > 0 ? kitsFrom(full, cutStrandTenths) : 0
  const putUps =
    perPutUp > 0 ? Math.ceil(toBuy / perPutUp) : putUpStrandTenths > 0 ? putUpsFor(toBuy * cutStrandTenths, putUpStrandTenths) : 0
  return (
    <TrayWord
      state={kits.promised + kits.more > 0 ? 'short' : 'none'}
      word={`Short for ${counted(toBuy, 'kit')}`}
      note={putUps > 0 && `${counted(putUps, thread.putUpWord)} to find or buy`}
    />
  )
}
