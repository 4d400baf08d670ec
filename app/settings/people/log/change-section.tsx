import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type ChangeTold, journalShown } from '#lib/db/access/list-audit'
import type { JournalLine } from '#lib/db/movement/list-movements'
import { PlaceLabel } from '#trade/place-label'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { doerWords, nounsOf, touchedWords } from '#words/audit'
import { momentWords } from '#words/date'
import { reasonSaid } from '#words/journal'
import { movementWords } from '#words/movement'

/** What one change did: its lines in the journal, and what else it touched. */
export function ChangeSection({ change }: { change: ChangeTold }) {
  const { revision, line, journal, hasMore, touched } = change
  // The line keeps what it touched for good; the rows that other programs catch up by are dropped in time.
  const kept = line ? nounsOf(line) : []
  const others = touchedWords(kept.length > 0 ? kept : touched)
  return (
    <Section
      title={say('Change {revision, number}', { revision })}
      id="change"
      note={line ? `${doerWords(line)}, ${momentWords(line.at)}` : say('Nobody had to sign in then.')}
    >
      {journal.length === 0 ? (
        <p>{say('Nothing came in, went out or moved.')}</p>
      ) : (
        <Ledger caption={say('Its lines in the journal')} columns={columns()} rows={journal} rowKey={({ id }) => id} />
      )}
      {hasMore && (
        <p className="quiet">{sayParts('The first {journalShown} lines; the HTTP API gives them all.', { journalShown })}</p>
      )}
      {others !== '' && <p className="quiet">{sayParts('It changed {others}.', { others })}</p>}
    </Section>
  )
}

function thingOf({ batch, cloth, chart, notion }: JournalLine): ReactNode {
  if (batch)
    return (
      <Link href={`/threads/${batch.threadId}`}>
        {[batch.makerName, batch.code, batch.name].filter(Boolean).join(' ')}
        {batch.lot && say(', lot {lot}', { lot: batch.lot })}
      </Link>
    )
  if (cloth) return <Link href={`/cloth/${cloth.id}`}>{cloth.label ?? cloth.name}</Link>
  if (chart)
    return (
      <Link href={`/charts/${chart.id}`}>
        <span className="title">{chart.title}</span>
      </Link>
    )
  if (notion) return <Link href={`/notions/${notion.id}`}>{[notion.name, notion.size].filter(Boolean).join(' ')}</Link>
  return say('something removed since')
}

const signed = (count: number): string => (count > 0 ? `+${count}` : count < 0 ? `−${-count}` : '')

const columns = (): readonly Column<JournalLine>[] => [
  { key: 'thing', head: say('Thing'), phone: 'lead', width: '32%', cell: thingOf },
  {
    key: 'kind',
    head: say('What'),
    phone: 'line',
    cell: ({ kind, reason }) => [movementWords[kind], reasonSaid(reason, 'cm')].filter(Boolean).join(': '),
  },
  { key: 'whole', head: say('How many'), phone: 'side', isNumeric: true, cell: ({ wholeDelta }) => signed(wholeDelta) },
  {
    key: 'places',
    head: say('From, to'),
    phone: 'line',
    isAtEnd: true,
    cell: ({ from, to }) => (
      <>
        {from && <PlaceLabel label={from.label} href={`/places/${from.id}`} />}
        {from && to && ' › '}
        {to && <PlaceLabel label={to.label} href={`/places/${to.id}`} />}
      </>
    ),
  },
]
