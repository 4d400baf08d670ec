import type { Metadata } from 'next'
import { say } from '#language/say'
import { nameProjects } from '#lib/db/project-bulk/queries'
import { mostProjects, previewProjectBulk } from '#lib/db/project-bulk/read-project-bulk'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { chosenProjects } from '../../../_listing/chosen-projects'
import { applyProjectBulkAction } from '../actions'
import { LinesTable, linesShown, shownNote } from '../lines-table'
import { type Query, readAsked, readChange } from '../schema'
import { describeBulkRefusal } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('What would change') })

/** What a change of the chosen projects would do, line by line, before it is done. */
export default async function ProjectBulkPreviewPage({ searchParams }: { searchParams: Promise<Query> }) {
  const query = await searchParams
  const asked = readAsked(query)
  const { ownerIds } = await getViewer()
  const back = `/projects/bulk?chosen=${encodeURIComponent(asked.chosen)}`
  const read = readChange(asked)
  if ('wrong' in read) return <NotYet back={back} title={read.wrong} />
  const chosen = await chosenProjects(asked.chosen, ownerIds)
  if (!chosen) return <NotYet back="/projects" title={say('What was chosen is no longer kept. Choose again.')} />
  const count = chosen.projectIds.length
  if (count > mostProjects)
    return <NotYet back={back} title={describeBulkRefusal({ kind: 'too-many', count, most: mostProjects })} />
  const { change, what } = read
  const { lines, fingerprint } = await previewProjectBulk({ change, projectIds: chosen.projectIds })
  const changing = lines.filter(({ outcome }) => outcome === 'changes')
  const same = lines.length - changing.length
  const names = await nameProjects(changing.slice(0, linesShown).map(({ id }) => id))
  const search = new URLSearchParams(
    Object.entries(query).flatMap(([name, value]) => [value ?? []].flat().map((one): [string, string] => [name, one])),
  )
  return (
    <>
      <PageHead
        title={what}
        note={counted(lines.length, 'project')}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: say('Chosen'), href: back },
          { label: say('Look first') },
        ]}
        byline={say('Nothing is written yet.')}
      >
        <p>
          {changing.length === 0
            ? say('Nothing would change.')
            : same === 0
              ? say('{counted} would change.', { counted: counted(changing.length, 'project') })
              : say('{counted} would change, {same} stay as they are.', { counted: counted(changing.length, 'project'), same })}
        </p>
      </PageHead>
      {changing.length === 0 ? (
        <Empty actions={<LinkButton href={back}>{say('Back to what was chosen')}</LinkButton>}>{say('All is so already.')}</Empty>
      ) : (
        <>
          <Section title={say('Do it')} note={say('All in one, or not at all. It can be taken back afterwards.')}>
            <Form
              label={what}
              action={applyProjectBulkAction}
              submit={say('Change {counted}', { counted: counted(changing.length, 'project') })}
              hidden={{ search: String(search), fingerprint }}
              actions={
                <LinkButton kind="quiet" href={back}>
                  {say('Leave it')}
                </LinkButton>
              }
            >
              <TextField
                name="who"
                label={say('Who does it')}
                hint={say('For the list of changes; may be left empty.')}
                width="half"
                maxLength={200}
              />
            </Form>
          </Section>
          <Section title={say('Line by line')} note={shownNote(changing.length)}>
            <LinesTable caption={say('{what}: before and after', { what })} change={change} names={names} lines={changing} />
          </Section>
        </>
      )}
    </>
  )
}

const NotYet = ({ back, title }: { back: string; title: string }) => (
  <>
    <PageHead
      title={say('What would change')}
      crumbs={[{ label: say('Projects'), href: '/projects' }, { label: say('Chosen'), href: back }, { label: say('Look first') }]}
    />
    <Notice kind="refusal" title={title} actions={<LinkButton href={back}>{say('Back')}</LinkButton>}>
      {say('Nothing was changed.')}
    </Notice>
  </>
)
