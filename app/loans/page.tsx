import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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

export const generateMetadata = (): Metadata => ({ title: say('Out and back') })

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
    { title: say('Overdue'), note: say('Longest overdue first.'), loans: of(({ standing }) => standing.kind === 'overdue') },
    { title: say('Due within a fortnight'), note: '', loans: of(({ standing }) => standing.kind === 'due-soon') },
    { title: say('Lent'), note: say('The next due first.'), loans: of((loan) => loan.kind === 'lend' && !isPressing(loan)) },
    {
      title: say('Sent to be worked on'),
      note: say('At framers, finishers and model stitchers.'),
      loans: of((loan) => loan.kind === 'send' && !isPressing(loan)),
    },
    {
      title: say('Borrowed from others'),
      note: say('To be given back.'),
      loans: of((loan) => loan.kind === 'borrow' && !isPressing(loan)),
    },
  ].filter(({ loans }) => loans.length > 0)
  return (
    <>
      <PageHead
        title={say('Out and back')}
        crumbs={[{ label: say('Places'), href: '/places' }, { label: say('Out and back') }]}
        note={open.total > 0 && say('{total, plural, one {# loan} other {# loans}} open', { total: open.total })}
        byline={ownerName && say('What is with others till when, and what is theirs here.')}
        actions={
          <>
            <LinkButton href="/loans/lend" kind="first">
              {say('Lend')}
            </LinkButton>
            <LinkButton href="/loans/send">{say('Send away')}</LinkButton>
            <LinkButton href="/loans/borrow">{say('Borrow')}</LinkButton>
          </>
        }
      />
      <PrintLine>{sayParts('Out and back, goods of {ownerName}', { ownerName })}</PrintLine>
      {open.total === 0 && (
        <Empty title={say('Nothing is out')} actions={<LinkButton href="/charts">{say('Choose a chart to lend')}</LinkButton>}>
          {say(
            'Lend a chart, send a piece to the framer or write down what you borrowed: then it stands here, with whom it is and till when. A loan has its reason and a day to be back by; files are not lent.',
          )}
        </Empty>
      )}
      {sections.map(({ title, note, loans }) => (
        <Section key={title} title={title} note={[counted(loans.length, 'loan'), note].filter(Boolean).join('. ')}>
          <LoanTable loans={loans} caption={title} currency={settings.currency} />
        </Section>
      ))}
      {closed.loans.length > 0 && (
        <Section
          title={say('Came back lately')}
          note={closed.total > backShown ? say('The last {backShown} of {total}.', { backShown, total: closed.total }) : ''}
        >
          <LoanTable loans={closed.loans} caption={say('Came back lately')} currency={settings.currency} />
        </Section>
      )}
    </>
  )
}
