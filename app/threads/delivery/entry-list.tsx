'use client'

import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Button, ButtonRow } from '#ui/button'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import threads from '../threads.module.css'
import s from './delivery.module.css'
import { type Entry, type EntryState, putUpsIn } from './queue'

const stateWords: Record<EntryState, string> = sayings({
  waiting: 'waiting to be sent',
  received: 'in',
  refused: 'not in',
  leaving: 'being taken back',
  'taken back': 'taken back',
})

type EntryListProps = {
  entries: readonly Entry[]
  onTakeBack: (entry: Entry) => void
  onAgain: (entry: Entry) => void
  onDrop: (entry: Entry) => void
}

/** What was entered, the latest first, each with how it stands. */
export function EntryList({ entries, onTakeBack, onAgain, onDrop }: EntryListProps) {
  const last = entries.find(({ state }) => state === 'received' || state === 'waiting')
  if (entries.length === 0)
    return (
      <Section title={say('Entered')}>
        <p className="quiet">{say('Nothing yet. What is put in stands here, and each can be taken back.')}</p>
      </Section>
    )
  return (
    <Section
      title={say('Entered')}
      note={say('{putUpsIn, plural, one {# put-up} other {# put-ups}} in this browser today', { putUpsIn: putUpsIn(entries) })}
      actions={last && <Button onClick={() => onTakeBack(last)}>{say('Take the last back')}</Button>}
    >
      <ul className={`${threads.list} ${s.entries}`}>
        {entries.map((entry) => (
          <li key={entry.entryId} data-state={entry.state}>
            <span>
              <b>{counted(entry.wholePutUps, entry.calledWord)}</b> <Link href={`/threads/${entry.threadId}`}>{entry.title}</Link>
              <small>
                {[
                  entry.lot && say('lot {lot}', { lot: entry.lot }),
                  entry.homeLabel && say('into {homeLabel}', { homeLabel: entry.homeLabel }),
                  entry.orderId && say('as ordered'),
                ]
                  .filter(Boolean)
                  .join(', ')}
              </small>
              {entry.said && <small className="do">{entry.said}</small>}
            </span>
            <ButtonRow>
              <span className={s.state}>{stateWords[entry.state]}</span>
              {(entry.state === 'received' || entry.state === 'waiting') && (
                <Button kind="quiet" onClick={() => onTakeBack(entry)}>
                  {sayParts('Take back{title}', { title: <span className="vh"> {entry.title}</span> })}
                </Button>
              )}
              {entry.state === 'refused' && (
                <>
                  <Button kind="quiet" onClick={() => onAgain(entry)}>
                    {sayParts('Try again{title}', { title: <span className="vh"> {entry.title}</span> })}
                  </Button>
                  <Button kind="quiet" onClick={() => onDrop(entry)}>
                    {sayParts('Drop it{title}', { title: <span className="vh"> {entry.title}</span> })}
                  </Button>
                </>
              )}
            </ButtonRow>
          </li>
        ))}
      </ul>
    </Section>
  )
}
