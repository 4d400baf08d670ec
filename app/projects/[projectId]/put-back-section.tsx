import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
        title={say('Put back')}
        note={back.length > 0 ? say('in walking order') : undefined}
        actions={openLists.map(({ walkId, waiting, things }) => (
          <LinkButton key={walkId} kind="first" href={`/walks/${walkId}`}>
            {sayParts('Tick the list: {waiting} of {things} to put back', { waiting, things })}
          </LinkButton>
        ))}
      >
        {back.length === 0 ? (
          <p>{say('Nothing was left to put back.')}</p>
        ) : (
          <Ledger
            caption={say('Leftovers and the places they go back to, in walking order')}
            rows={back}
            rowKey={(line) => line.batchId}
            columns={[
              {
                key: 'place',
                head: say('Back to'),
                cell: ({ place }) => (place ? <PlaceLabel label={place.label} href={`/places/${place.id}`} /> : say('no place')),
                phone: 'line',
              },
              {
                key: 'thread',
                head: say('Thread'),
                cell: ({ thread, lot }) => <ThreadCell thread={thread} note={lot && say('lot {lot}', { lot })} />,
                phone: 'lead',
              },
              {
                key: 'what',
                head: say('How much'),
                cell: (line) => <b>{amountWords(line, line.thread, unit)}</b>,
                phone: 'side',
              },
              {
                key: 'state',
                head: say('State'),
                cell: ({ isWaiting }) => (isWaiting ? <span className="do">{say('still in the bag')}</span> : say('✓ home')),
                isAtEnd: true,
                phone: 'labelled',
              },
            ]}
          />
        )}
        {usedUp.length > 0 && (
          <p className={s.sum}>
            {say('Used up, so look whether to buy again: {usedUp}.', {
              usedUp: listed(usedUp.map(({ thread, putUps }) => `${threadName(thread)} (${counted(putUps, thread.putUpWord)})`)),
            })}
          </p>
        )}
        {missing.map(({ batchId, thread, lot, lastSeen, missingId, ...amount }) => (
          <p key={batchId} className={`${s.sum} do`}>
            {sayParts('Missing: {rest}{rest2}, {amount}. It stays out{rest3}.', {
              rest: missingId ? <Link href={`/missing/${missingId}`}>{threadName(thread)}</Link> : threadName(thread),
              rest2: lot && say(', lot {lot}', { lot }),
              amount: amountWords(amount, thread, unit),
              rest3: lastSeen && say(', last seen in {label}', { label: lastSeen.label }),
            })}
          </p>
        ))}
      </Section>
      {used.length > 0 && (
        <Section title={say('What it took')}>
          <Ledger
            caption={say('Thread used')}
            rows={used}
            rowKey={({ thread }) => thread.id}
            columns={[
              { key: 'thread', head: say('Thread'), cell: ({ thread }) => <ThreadCell thread={thread} />, phone: 'lead' },
              {
                key: 'used',
                head: say('Used'),
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
