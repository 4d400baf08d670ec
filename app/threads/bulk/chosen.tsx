import { colourFamilies } from '#lib/colour/family'
import { listPlaceOptions } from '#lib/db/place/queries'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import s from '../../_listing/bulk.module.css'
import { chosenThreads } from '../../_listing/chosen-threads'
import { ChangeFields } from './change-fields'

const crumbs = [{ label: 'Threads', href: '/threads' }, { label: 'Chosen' }]

/** What can be done with the threads that were chosen of the list. */
export async function ChosenThreads({ chosenId }: { chosenId: string }) {
  const { ownerIds, ownerName, owners } = await getViewer()
  const [ids, places] = await Promise.all([chosenThreads(chosenId, ownerIds), listPlaceOptions()])
  if (!ids || ids.length === 0) {
    return (
      <>
        <PageHead title="Chosen threads" crumbs={crumbs} />
        <Empty
          title={ids ? 'No thread is chosen' : 'What was chosen is no longer kept'}
          actions={<LinkButton href="/threads">Back to the threads</LinkButton>}
        >
          Tick rows of the list, or choose all that your choices find. What is chosen is kept for a day.
        </Empty>
      </>
    )
  }
  return (
    <>
      <PageHead
        title={`${counted(ids.length, 'thread')} chosen`}
        crumbs={crumbs}
        byline={`Stock of ${ownerName || 'nobody yet'}. Nothing changes before you have seen what would change, and it can be taken back.`}
        actions={<LinkButton href="/threads">Choose others</LinkButton>}
      />
      <Section title="Use them" note="Nothing on record changes.">
        <ButtonRow>
          <LinkButton href={`/labels?chosen=${chosenId}&which=all`}>Print labels of their batches</LinkButton>
        </ButtonRow>
      </Section>
      <form action="/threads/bulk/preview" className={s.form} aria-label="Change the chosen threads">
        <input type="hidden" name="chosen" value={chosenId} />
        <Section title="Change them" note="One thing at a time.">
          <ChangeFields
            places={places.map(({ label }) => label)}
            owners={owners.map(({ id, name }) => ({ value: id, label: name }))}
            families={colourFamilies}
          />
        </Section>
        <div className={s.acts}>
          <Button kind="first" type="submit">
            Look at what would change
          </Button>
        </div>
      </form>
    </>
  )
}
