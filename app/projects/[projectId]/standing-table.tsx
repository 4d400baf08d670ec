import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { kitsFrom } from '#lib/coverage/kit-cuts'
import type { ThreadStanding } from '#lib/db/project/pull-list'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { putUpsFor } from '#lib/thread/put-ups'
import { TrayWord } from '#trade/tray'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Sum, Sums } from '#ui/sum'
import { UnfoldButton } from '#ui/unfold'
import { counted, listed, threadLength } from '#words/amounts'
import { threadName } from '#words/thread'
import { NeedSlip } from '../../_things/need-slip'
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
      caption={say('What the project needs of each thread, and what it was promised')}
      rows={threads}
      rowKey={(row) => row.thread.id}
      columns={[
        {
          key: 'thread',
          head: say('Thread'),
          cell: ({ thread, insteadOf }) => (
            <ThreadCell
              thread={thread}
              note={insteadOf.length > 0 ? say('instead of {insteadOf}', { insteadOf: listed(insteadOf.map(threadName)) }) : null}
            />
          ),
          phone: 'lead',
        },
        {
          key: 'need',
          head: say('Need'),
          cell: ({ needStrandTenths, thread }) => {
            const length = threadLength(needStrandTenths, thread.strands, unit)
            return (
              <UnfoldButton
                label={say('{length} of {threadName} needed: how it is worked out', { length, threadName: threadName(thread) })}
              >
                {length}
              </UnfoldButton>
            )
          },
          isNumeric: true,
          phone: 'labelled',
        },
        {
          key: 'promised',
          head: say('Promised'),
          cell: ({ promisedStrandTenths, thread }) => threadLength(promisedStrandTenths, thread.strands, unit),
          isNumeric: true,
          phone: 'labelled',
        },
        { key: 'state', head: say('State'), cell: (row) => <State row={row} unit={unit} isWish={isWish} />, phone: 'side' },
        {
          key: 'choose',
          head: say('Choose'),
          headIsHidden: true,
          cell: ({ thread }) =>
            !isWish && (
              <Link href={`/projects/${projectId}/threads/${thread.id}`}>
                {sayParts('Choose<span> which {threadName} is promised</span>', {
                  span: (words) => <span className="vh">{words}</span>,
                  threadName: threadName(thread),
                })}
              </Link>
            ),
          isAtEnd: true,
          phone: 'line',
          isOffPaper: true,
        },
      ]}
      under={(row) => <StandingSums row={row} unit={unit} />}
    />
  )
}

/** What a thread's need is made of, and what is promised and free for it. */
function StandingSums({ row, unit }: { row: ThreadStanding; unit: ThreadLengthUnit }) {
  const { need, line, kits, needStrandTenths, promisedStrandTenths, moreStrandTenths, thread } = row
  const length = (strandTenths: number) => threadLength(strandTenths, thread.strands, unit)
  const want = Math.max(0, needStrandTenths - promisedStrandTenths)
  return (
    <Sums>
      {line && <NeedSlip need={need} line={line} unit={unit} copies={kits?.copies ?? 1} />}
      {kits ? (
        <Sum
          title={say('Counted in kits')}
          rows={[
            { label: say('Kits and spares'), figure: kits.copies },
            { label: say('Promised, or cut already'), figure: `− ${kits.promised}` },
            { label: say('Still wanted'), figure: Math.max(0, kits.copies - kits.promised), kind: 'rule' },
            { label: say('Free for more'), figure: `− ${Math.min(kits.more, Math.max(0, kits.copies - kits.promised))}` },
            { label: say('Short'), figure: Math.max(0, kits.copies - kits.promised - kits.more), kind: 'end' },
          ]}
          note={say('A kit’s cut has no join, so a remnant shorter than one counts for none.')}
        />
      ) : (
        <Sum
          title={say('What is there for it')}
          rows={[
            { label: say('Needed'), figure: length(needStrandTenths) },
            { label: say('Promised'), figure: `− ${length(Math.min(promisedStrandTenths, needStrandTenths))}` },
            { label: say('Still wanted'), figure: length(want), kind: 'rule' },
            { label: say('Free beyond that'), figure: `− ${length(Math.min(want, moreStrandTenths))}` },
            { label: say('Short'), figure: length(Math.max(0, want - moreStrandTenths)), kind: 'end' },
          ]}
        />
      )}
    </Sums>
  )
}

function State({ row, unit, isWish }: { row: ThreadStanding; unit: ThreadLengthUnit; isWish: boolean }) {
  const { needStrandTenths, promisedStrandTenths, moreStrandTenths, putUpStrandTenths, thread } = row
  if (row.kits) return <KitState kits={row.kits} cutStrandTenths={needStrandTenths / row.kits.copies} row={row} isWish={isWish} />
  const want = needStrandTenths - promisedStrandTenths
  if (want <= 0) return <TrayWord state="enough" word={say('Promised')} />
  const toBuy = want - moreStrandTenths
  if (toBuy <= 0) return <TrayWord state="unknown" word={isWish ? say('Free') : say('Free now, not promised')} />
  const putUps = putUpStrandTenths > 0 ? counted(putUpsFor(toBuy, putUpStrandTenths), thread.putUpWord) : null
  return (
    <TrayWord
      state={promisedStrandTenths + moreStrandTenths > 0 ? 'short' : 'none'}
      word={say('Short {threadLength}', { threadLength: threadLength(toBuy, thread.strands, unit) })}
      note={putUps && say('{putUps} to find or buy', { putUps })}
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
  if (want <= 0)
    return (
      <TrayWord
        state="enough"
        word={say('Promised')}
        note={say('for {copies, plural, one {# kit} other {# kits}}', { copies: kits.copies })}
      />
    )
  const toBuy = want - kits.more
  if (toBuy <= 0) return <TrayWord state="unknown" word={isWish ? say('Free') : say('Free now, not promised')} />
  const full = { putUpStrandTenths, wholePutUps: 1, partStrandTenths: 0 }
  const perPutUp = putUpStrandTenths > 0 ? kitsFrom(full, cutStrandTenths) : 0
  const putUps =
    perPutUp > 0 ? Math.ceil(toBuy / perPutUp) : putUpStrandTenths > 0 ? putUpsFor(toBuy * cutStrandTenths, putUpStrandTenths) : 0
  return (
    <TrayWord
      state={kits.promised + kits.more > 0 ? 'short' : 'none'}
      word={say('Short for {toBuy, plural, one {# kit} other {# kits}}', { toBuy })}
      note={putUps > 0 && say('{counted} to find or buy', { counted: counted(putUps, thread.putUpWord) })}
    />
  )
}
