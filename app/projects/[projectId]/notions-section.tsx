import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
        {sayParts('No hoop, needle or other notion is taken for it. <link>Take one from the notions</link>.', {
          link: (words) => <Link href="/notions">{words}</Link>,
        })}
      </p>
    ) : null
  }
  return (
    <Section title={say('In use for it')} id="notions" actions={<Link href="/notions">{say('All notions')}</Link>}>
      <Ledger
        caption={say('Notions in use for it')}
        rows={notions}
        rowKey={({ id }) => id}
        columns={[
          {
            key: 'name',
            head: say('Notion'),
            cell: (notion) => <Link href={`/notions/${notion.id}`}>{notionTitle(notion)}</Link>,
            phone: 'lead',
          },
          {
            key: 'count',
            head: say('How many'),
            cell: ({ count }) => <span className="nb">× {count}</span>,
            isNumeric: true,
            phone: 'side',
          },
          {
            key: 'home',
            head: say('Back to'),
            cell: ({ home }) =>
              home ? (
                <PlaceLabel label={home.label} href={`/places/${home.id}`} />
              ) : (
                <span className="quiet">{say('no place yet')}</span>
              ),
            phone: 'labelled',
          },
          {
            key: 'back',
            head: say('Put back'),
            headIsHidden: true,
            cell: (notion) => (
              <Form
                action={putBackNotionAction}
                hidden={{ id: notion.id, version: String(notion.version) }}
                submit={sayParts('Put back{notionTitle}', { notionTitle: <span className="vh"> {notionTitle(notion)}</span> })}
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
