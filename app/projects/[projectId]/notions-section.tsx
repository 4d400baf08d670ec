import { listNotionsUsedBy } from '#lib/db/notion/queries'
import { PlaceLabel } from '#trade/place-label'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { notionTitle } from '#words/notion'
import { putBackNotionAction } from '../actions'
import s from './project.module.css'

/** Hoops, needles and the like taken for a project, each with its way back. Nothing for a project that is over and has none. */
export async function NotionsSection({ projectId, isOpen }: { projectId: string; isOpen: boolean }) {
  const notions = await listNotionsUsedBy(projectId)
  if (notions.length === 0) {
    return isOpen ? (
      <p className={`${s.sum} quiet`}>
        No hoop, needle or other notion is taken for it. <Link href="/notions">Take one from the notions</Link>.
      </p>
    ) : null
  }
  return (
    <Section title="In use for it" id="notions" actions={<Link href="/notions">All notions</Link>}>
      <Ledger
        caption="Notions in use for it"
        rows={notions}
        rowKey={({ id }) => id}
        columns={[
          {
            key: 'name',
            head: 'Notion',
            cell: (notion) => <Link href={`/notions/${notion.id}`}>{notionTitle(notion)}</Link>,
            phone: 'lead',
          },
          {
            key: 'count',
            head: 'How many',
            cell: ({ count }) => <span className="nb">× {count}</span>,
            isNumeric: true,
            phone: 'side',
          },
          {
            key: 'home',
            head: 'Back to',
            cell: ({ home }) =>
              home ? <PlaceLabel label={home.label} href={`/places/${home.id}`} /> : <span className="quiet">no place yet</span>,
            phone: 'labelled',
          },
          {
            key: 'back',
            head: 'Put back',
            headIsHidden: true,
            cell: (notion) => (
              <Form
                action={putBackNotionAction}
                hidden={{ id: notion.id, version: String(notion.version) }}
                submit={
                  <>
                    Put back<span className="vh"> {notionTitle(notion)}</span>
                  </>
                }
                submitKind="plain"
                isInline
              />
            ),
            isAtEnd: true,
            phone: 'wide',
            isOffPaper: true,
          },
        ]}
      />
    </Section>
  )
}
