import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ChartLoan } from '#lib/db/loan/queries'
import { LoanStandingWord } from '#trade/loan-standing'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { listed } from '#words/amounts'
import { loanKindWords, standingWords } from '#words/loan'

/** That the last copy of a chart is with somebody: with whom, and till when. */
export function ChartOutNotice({ loans }: { loans: readonly ChartLoan[] }) {
  return (
    <Notice
      kind="caution"
      title={say('Chart out: with {listed}', {
        listed: listed([...new Set(loans.map(({ place }) => place.label))]) || say('somebody'),
      })}
    >
      {loans.map(({ id, kind, place, fromOn, dueOn, standing }) => (
        <p key={id}>
          {sayParts('{loanKind} since {fromOn}.', {
            loanKind: (
              <Link href={`/loans/${id}`}>
                {loanKindWords[kind]} {place.label}
              </Link>
            ),
            fromOn: formatDate(fromOn),
          })}{' '}
          <LoanStandingWord standing={standing} word={standingWords(standing)} note={dueOn ? formatDate(dueOn) : undefined} />
        </p>
      ))}
    </Notice>
  )
}
