import { say } from '#language/say'
import { listLoans } from '#lib/db/loan/queries'
import { LinkButton } from '#ui/button'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { calendarDay } from '#words/date'
import { LoanTable } from './loan-table'

type LoansOfProps = { title: string } & ({ placeId: string } | { projectId: string; ownerId: string })

/** What is open with one person, or where one project's work is; nothing at all where nothing is. */
export async function LoansOf({ title, ...of }: LoansOfProps) {
  const { settings, ownerIds } = await getViewer()
  const asked = 'placeId' in of ? { placeId: of.placeId, ownerIds } : { projectId: of.projectId, ownerIds: [of.ownerId] }
  const { loans } = await listLoans({ ...asked, state: 'open' }, calendarDay(new Date()))
  if (loans.length === 0) return null
  return (
    <Section
      title={title}
      id="loans"
      note={counted(loans.length, 'loan')}
      actions={<LinkButton href="/loans">{say('Out and back')}</LinkButton>}
    >
      <LoanTable loans={loans} caption={title} currency={settings.currency} />
    </Section>
  )
}
