import type { Metadata } from 'next'
import { say } from '#language/say'
import { listProjectBulks } from '#lib/db/project-bulk/queries'
import { mostStars } from '#lib/planning/together/wish-value'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { DateField, SelectField, TextField } from '#ui/field'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import s from '../../_listing/bulk.module.css'
import { ChangeChoice } from '../../_listing/change-choice'
import { chosenProjects } from '../../_listing/chosen-projects'
import { DoneLately } from '../../_listing/done-lately'
import { type Query, readAsked } from './schema'

export const generateMetadata = (): Metadata => ({ title: say('Chosen projects') })

const editsShown = 12
/** As many projects as the address of another screen holds. */
const mostNamed = 50

const crumbs = () => [{ label: say('Projects'), href: '/projects' }, { label: say('Chosen') }]

/** What can be done with the projects that were chosen of the list. */
export default async function ProjectBulkPage({ searchParams }: { searchParams: Promise<Query> }) {
  const { chosen: chosenId } = readAsked(await searchParams)
  const { ownerIds } = await getViewer()
  const [chosen, edits] = await Promise.all([
    chosenId === '' ? null : chosenProjects(chosenId, ownerIds),
    listProjectBulks(editsShown),
  ])
  const lately = <DoneLately edits={edits} hrefOf={(id) => `/projects/bulk/done/${id}`} />
  if (!chosen || chosen.projectIds.length === 0) {
    return (
      <>
        <PageHead title={say('Chosen projects')} crumbs={crumbs()} />
        <Empty
          title={chosen || chosenId === '' ? say('No project is chosen') : say('What was chosen is no longer kept')}
          actions={<LinkButton href={`/projects?${chosen?.filter ?? ''}`}>{say('Back to the projects')}</LinkButton>}
        >
          {say('Tick rows of the list, or choose all that your choices find. What is chosen is kept for a day.')}
        </Empty>
        {lately}
      </>
    )
  }
  const { projectIds, filter } = chosen
  const named = new URLSearchParams(projectIds.map((id) => ['project', id]))
  return (
    <>
      <PageHead
        title={say('{counted} chosen', { counted: counted(projectIds.length, 'project') })}
        crumbs={crumbs()}
        byline={say('Nothing changes before you have seen what would change, and it can be taken back.')}
        actions={<LinkButton href={`/projects?${filter}`}>{say('Choose others')}</LinkButton>}
      />
      {projectIds.length <= mostNamed && (
        <Section title={say('Use them')} note={say('Nothing on record changes.')}>
          <ButtonRow>
            <LinkButton href={`/walks/new?${named}`}>{say('Pull for them')}</LinkButton>
            <LinkButton href={`/buy?${named}`}>{say('What to buy for them')}</LinkButton>
          </ButtonRow>
        </Section>
      )}
      <form action="/projects/bulk/preview" className={s.form} aria-label={say('Change the chosen projects')}>
        <input type="hidden" name="chosen" value={chosenId} />
        <Section title={say('Change them')} note={say('One thing at a time. Left blank, it is taken off.')}>
          <fieldset className={s.changes}>
            <legend className="vh">{say('What changes')}</legend>
            <ChangeChoice what="due" label={say('The day they are due')} isFirst>
              <DateField name="due" label={say('Due')} hint={say('In place of an occasion they were due for.')} />
            </ChangeChoice>
            <ChangeChoice what="planned" label={say('The day they are to be begun')}>
              <DateField name="planned" label={say('To be begun')} />
            </ChangeChoice>
            <ChangeChoice what="for-whom" label={say('Whom they are for')}>
              <TextField name="whom" label={say('For whom')} maxLength={200} />
            </ChangeChoice>
            <ChangeChoice what="stars" label={say('How much they are wished for')}>
              <SelectField
                name="stars"
                label={say('Stars')}
                options={Array.from({ length: mostStars + 1 }, (_, stars) => ({
                  value: String(stars),
                  label: stars === 0 ? say('no stars') : counted(stars, 'star'),
                }))}
              />
            </ChangeChoice>
          </fieldset>
        </Section>
        <div className={s.acts}>
          <Button kind="first" type="submit">
            {say('Look at what would change')}
          </Button>
        </div>
      </form>
      {lately}
    </>
  )
}
