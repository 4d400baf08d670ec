import type { Metadata } from 'next'
import { type LoanRow, listLoans } from '#lib/db/loan/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { calendarDay } from '#words/date'
import { LoanTable } from '../_loans/loan-table'

export const metadata: Metadata = { title: 'Out and back' }

/** More open loans than anybody keeps at once. */
const mostOpen = 900
const backShown = 20

export default async function LoansPage() {
  const { settings, ownerIds, ownerName } = await getViewer()
  const today = calendarDay(new Date())
  const [open, closed] = await Promise.all([
    listLoans({ ownerIds, state: 'open' }, today, { offset: 0, limit: mostOpen }),
    listLoans({ ownerIds, state: 'closed' }, today, { offset: 0, limit: backShown }),
  ])
  const of = (isThis: (loan: LoanRow) => boolean) => open.loans.filter(isThis)
  const isPressing = ({ standing }: LoanRow) => standing.kind === 'overdue' || standing.kind === 'due-soon'
  const sections = [
    { title: 'Overdue', note: 'Longest overdue first.', loans: of(({ standing }) => standing.kind === 'overdue') },
    { title: 'Due within a fortnight', note: '', loans: of(({ standing }) => standing.kind === 'due-soon') },
    { title: 'Lent', note: 'The next due first.', loans: of((loan) => loan.kind === 'lend' && !isPressing(loan)) },
    {
      title: 'Sent to be worked on',
      note: 'At framers, finishers and model stitchers.',
      loans: of((loan) => loan.kind === 'send' && !isPressing(loan)),
    },
    {
      title: 'Borrowed from others',
      note: 'To be given back.',
      loans: of((loan) => loan.kind === 'borrow' && !isPressing(loan)),
    },
  ].filter(({ loans }) => loans.length > 0)
  return (
    <>
      <PageHead
        title="Out and back"
        crumbs={[{ label: 'Places', href: '/places' }, { label: 'Out and back' }]}
        note={open.total > 0 && `${counted(open.total, 'loan')} open`}
        byline={ownerName && 'What is with others till when, and what is theirs here.'}
        actions={
          <>
            <LinkButton href="/loans/lend" kind="first">
              Lend
            </LinkButton>
            <LinkButton href="/loans/send">Send away</LinkButton>
            <LinkButton href="/loans/borrow">Borrow</LinkButton>
          </>
        }
      />
      <PrintLine>Out and back, goods of {ownerName}</PrintLine>
      {open.total === 0 && (
        <Empty title="Nothing is out" actions={<LinkButton href="/charts">Choose a chart to lend</LinkButton>}>
          Lend a chart, send a piece to the framer or write down what you borrowed: then it stands here, with whom it is and till
          when. A loan has its reason and a day to be back by; files are not lent.
        </Empty>
      )}
      {sections.map(({ title, note, loans }) => (
        <Section key={title} title={title} note={[counted(loans.length, 'loan'), note].filter(Boolean).join('. ')}>
          <LoanTable loans={loans} caption={title} currency={settings.currency} />
        </Section>
      ))}
      {closed.loans.length > 0 && (
        <Section title="Came back lately" note={closed.total > backShown ? `The last ${backShown} of ${closed.total}.` : ''}>
          <LoanTable loans={closed.loans} caption="Came back lately" currency={settings.currency} />
        </Section>
      )}
    </>
  )
}
