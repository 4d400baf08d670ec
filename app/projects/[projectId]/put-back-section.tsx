import type { PutBackList } from '#lib/db/project/put-back-list'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { counted, listed, threadLength } from '#words/amounts'
import { amountWords } from '#words/stock'
import { threadName } from '#words/thread'
import { ThreadCell } from '../../_things/thread-cell'
import s from './project.module.css'

/** What goes back where, in walking order; what was used up; what was not in the bag. */
export function PutBackSection({ list, unit }: { list: PutBackList; unit: ThreadLengthUnit }) {
  const { back, usedUp, missing, used, openLists } = list
  return (
    <>
      <Section
        title="Put back"
        note={back.length > 0 ? 'in walking order' : undefined}
        actions={openLists.map(({ walkId, waiting, things }) => (
          <LinkButton key={walkId} kind="first" href={`/walks/${walkId}`}>
            Tick the list: {waiting} of {things} to put back
          </LinkButton>
        ))}
      >
        {back.length === 0 ? (
          <p>Nothing was left to put back.</p>
        ) : (
          <Ledger
            caption="Leftovers and the places they go back to, in walking order"
            rows={back}
            rowKey={(line) => line.batchId}
            columns={[
              {
                key: 'place',
                head: 'Back to',
                cell: ({ place }) => (place ? <PlaceLabel label={place.label} href={`/places/${place.id}`} /> : 'no place'),
                phone: 'line',
              },
              {
                key: 'thread',
                head: 'Thread',
                cell: ({ thread, lot }) => <ThreadCell thread={thread} note={lot && `lot ${lot}`} />,
                phone: 'lead',
              },
              { key: 'what', head: 'How much', cell: (line) => <b>{amountWords(line, line.thread, unit)}</b>, phone: 'side' },
              {
                key: 'state',
                head: 'State',
                cell: ({ isWaiting }) => (isWaiting ? <span className="do">still in the bag</span> : '✓ home'),
                isAtEnd: true,
                phone: 'labelled',
              },
            ]}
          />
        )}
        {usedUp.length > 0 && (
          <p className={s.sum}>
            Used up, so look whether to buy again:{' '}
            {listed(usedUp.map(({ thread, putUps }) => `${threadName(thread)} (${counted(putUps, thread.putUpWord)})`))}.
          </p>
        )}
        {missing.map(({ batchId, thread, lot, lastSeen, missingId, ...amount }) => (
          <p key={batchId} className={`${s.sum} do`}>
            Missing: {missingId ? <Link href={`/missing/${missingId}`}>{threadName(thread)}</Link> : threadName(thread)}
            {lot && `, lot ${lot}`}, {amountWords(amount, thread, unit)}. It stays out
            {lastSeen && `, last seen in ${lastSeen.label}`}.
          </p>
        ))}
      </Section>
      {used.length > 0 && (
        <Section title="What it took">
          <Ledger
            caption="Thread used"
            rows={used}
            rowKey={({ thread }) => thread.id}
            columns={[
              { key: 'thread', head: 'Thread', cell: ({ thread }) => <ThreadCell thread={thread} />, phone: 'lead' },
              {
                key: 'used',
                head: 'Used',
                cell: ({ thread, strandTenths }) => threadLength(strandTenths, thread.strands, unit),
                isNumeric: true,
                phone: 'side',
              },
            ]}
          />
        </Section>
      )}
    </>
  )
}
