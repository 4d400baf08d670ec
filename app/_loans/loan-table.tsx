import { formatDate } from '#language/day'
import { say } from '#language/say'
import type { LoanRow } from '#lib/db/loan/queries'
import { formatPrice } from '#lib/quantity/money'
import { LoanStandingWord } from '#trade/loan-standing'
import { PlaceLabel } from '#trade/place-label'
import { type Column, Ledger } from '#ui/ledger'
import { midSentence } from '#words/capital'
import { lentSummary, loanKindWords, standingWords } from '#words/loan'

/** Loans, one a row: what, with whom, since when, till when, what for. */
export function LoanTable({ loans, caption, currency }: { loans: readonly LoanRow[]; caption: string; currency: string }) {
  const columns: Column<LoanRow>[] = [
    {
      key: 'what',
      head: say('What'),
      cell: ({ lines }) => <b>{lentSummary(lines)}</b>,
      phone: 'lead',
      width: '18rem',
    },
    {
      key: 'who',
      head: say('With whom'),
      cell: ({ place, kind }) => (
        <PlaceLabel label={place.label} href={`/places/${place.id}`} isAway note={midSentence(loanKindWords[kind])} />
      ),
      phone: 'line',
    },
    {
      key: 'since',
      head: say('Since'),
      cell: ({ fromOn, closedOn }) => (
        <span className="nb">
          {formatDate(fromOn)}
          {closedOn && (
            <>
              <br />
              <small className="quiet">{say('back {closedOn}', { closedOn: formatDate(closedOn) })}</small>
            </>
          )}
        </span>
      ),
      phone: 'labelled',
    },
    {
      key: 'due',
      head: say('Due'),
      cell: ({ standing, dueOn, lines }) => {
        const back = lines.filter(({ backOn }) => backOn !== null).length
        const isPart = standing.kind !== 'closed' && back > 0
        return (
          <LoanStandingWord
            standing={standing}
            word={standingWords(standing)}
            note={[
              dueOn && formatDate(dueOn),
              isPart && say('{back} of {lines, plural, one {# thing} other {# things}} back', { back, lines: lines.length }),
            ]
              .filter(Boolean)
              .join(', ')}
          />
        )
      },
      phone: 'line',
    },
    {
      key: 'why',
      head: say('What for'),
      cell: ({ reason, priceMinor }) => (priceMinor === null ? reason : `${reason}, ${currency}${formatPrice(priceMinor, null)}`),
    },
  ]
  return <Ledger caption={caption} columns={columns} rows={loans} rowKey={({ id }) => id} rowHref={({ id }) => `/loans/${id}`} />
}
