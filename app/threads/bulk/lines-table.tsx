import type { ReactNode } from 'react'
import { say } from '#language/say'
import type { LineNames } from '#lib/db/bulk-edit/name-lines'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { BulkValue, KeptChange } from '#lib/stock/plan-bulk-edit'
import { type Column, type Group, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { heldWords } from '#words/stock'
import s from '../../_listing/bulk.module.css'
import { ThreadMark } from '../thread-mark'
import { kindWords, valueAfter, valueWords } from './words'

/** One line of a change: what it is of, what was there, and how it came out. */
export type TableLine = {
  threadId: string
  batchId: string | null
  before: BulkValue
  note: ReactNode
  isChanged: boolean
  /** The home this line got, where each got its own. */
  toPlaceId?: string | undefined
}

type LinesTableProps = {
  caption: string
  change: KeptChange
  groups: readonly Group<TableLine>[]
  names: LineNames
  unit: ThreadLengthUnit
}

/** Before and after, thread by thread or batch by batch. */
export function LinesTable({ caption, change, groups, names, unit }: LinesTableProps) {
  const columns: Column<TableLine>[] = [
    {
      key: 'thread',
      head: say('Thread'),
      cell: ({ threadId, batchId }) => <LineName threadId={threadId} batchId={batchId} names={names} unit={unit} />,
      phone: 'lead',
    },
    {
      key: 'before',
      head: say('{kind} before', { kind: kindWords[change.kind] }),
      cell: ({ before }) => valueWords(change.kind, before, names),
      phone: 'labelled',
    },
    {
      key: 'after',
      head: say('After'),
      cell: ({ isChanged, toPlaceId }) =>
        isChanged ? <b>{valueWords(change.kind, valueAfter(change, toPlaceId), names)}</b> : say('the same'),
      phone: 'labelled',
    },
    { key: 'note', head: say('Note'), cell: ({ note }) => note, isAtEnd: true, phone: 'wide' },
  ]
  return (
    <Ledger
      caption={caption}
      columns={columns}
      groups={groups}
      rowKey={({ threadId, batchId }) => `${threadId} ${batchId}`}
      isTight
    />
  )
}

type LineNameProps = { threadId: string; batchId: string | null; names: LineNames; unit: ThreadLengthUnit }

export function LineName({ threadId, batchId, names, unit }: LineNameProps) {
  const thread = names.threads.get(threadId)
  const batch = names.batches.get(batchId ?? '')
  if (!thread) return say('a thread that was removed')
  return (
    <span className={s.thread}>
      <ThreadMark lab={thread.lab} dyeing={thread.dyeing} />
      <span>
        <Link href={`/threads/${thread.id}`}>
          {[thread.makerName, thread.lineName].filter(Boolean).join(' ')} <b>{thread.code}</b> {thread.name}
        </Link>
        {batch && (
          <span className={s.under}>
            {[heldWords(batch, thread, unit), batch.lot && say('lot {lot}', { lot: batch.lot }), batch.ownerName]
              .filter(Boolean)
              .join(', ')}
          </span>
        )}
      </span>
    </span>
  )
}
