import { say } from '#language/say'
import { colourFamilies } from '#lib/colour/family'
import { listPlaceOptions } from '#lib/db/place/queries'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import s from '../../_listing/bulk.module.css'
import { chosenThreads } from '../../_listing/chosen-threads'
import { ChangeFields } from './change-fields'
import { ToListForm } from './to-list-form'

const crumbs = () => [{ label: say('Threads'), href: '/threads' }, { label: say('Chosen') }]

/** What can be done with the threads that were chosen of the list. */
export async function ChosenThreads({ chosenId }: { chosenId: string }) {
  const { ownerIds, ownerName, owners } = await getViewer()
  const [ids, places] = await Promise.all([chosenThreads(chosenId, ownerIds), listPlaceOptions()])
  if (!ids || ids.length === 0) {
    return (
      <>
        <PageHead title={say('Chosen threads')} crumbs={crumbs()} />
        <Empty
          title={ids ? say('No thread is chosen') : say('What was chosen is no longer kept')}
          actions={<LinkButton href="/threads">{say('Back to the threads')}</LinkButton>}
        >
          {say('Tick rows of the list, or choose all that your choices find. What is chosen is kept for a day.')}
        </Empty>
      </>
    )
  }
  return (
    <>
      <PageHead
        title={say('{ids, plural, one {# thread} other {# threads}} chosen', { ids: ids.length })}
        crumbs={crumbs()}
        byline={say('Stock of {ownerName}. Nothing changes before you have seen what would change, and it can be taken back.', {
          ownerName: ownerName || say('nobody yet'),
        })}
        actions={<LinkButton href="/threads">{say('Choose others')}</LinkButton>}
      />
      <Section title={say('Use them')} note={say('Nothing on record changes.')}>
        <ButtonRow>
          <LinkButton href={`/labels?chosen=${chosenId}&which=all`}>{say('Print labels of their batches')}</LinkButton>
        </ButtonRow>
      </Section>
      <Section
        title={say('Buy more of them')}
        note={say('On a list to shop by: what stands open on it already is not put down twice.')}
      >
        <ToListForm chosenId={chosenId} owners={owners} ownerIds={ownerIds} />
      </Section>
      <form action="/threads/bulk/preview" className={s.form} aria-label={say('Change the chosen threads')}>
        <input type="hidden" name="chosen" value={chosenId} />
        <Section title={say('Change them')} note={say('One thing at a time.')}>
          <ChangeFields
            places={places.map(({ label }) => label)}
            owners={owners.map(({ id, name }) => ({ value: id, label: name }))}
            families={colourFamilies}
          />
        </Section>
        <div className={s.acts}>
          <Button kind="first" type="submit">
            {say('Look at what would change')}
          </Button>
        </div>
      </form>
    </>
  )
}
