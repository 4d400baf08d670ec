import type { Metadata } from 'next'
import { say } from '#language/say'
import { listPlaceChanges } from '#lib/db/place/place-change'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { dayOf } from '#words/date'

export const generateMetadata = (): Metadata => ({ title: say('Places merged and split') })

const changesShown = 200

export default async function PlaceChangesPage() {
  const changes = await listPlaceChanges(changesShown)
  return (
    <>
      <PageHead
        title={say('Merged and split')}
        crumbs={[{ label: say('Places'), href: '/places' }, { label: say('Merged and split') }]}
        byline={changes.length > 0 && say('The latest first. Each can be taken back, as far as nothing else was changed since.')}
      />
      {changes.length === 0 ? (
        <Empty
          title={say('No place was merged or split yet')}
          actions={<LinkButton href="/places">{say('All places')}</LinkButton>}
        >
          {say(
            'On the page of a place, “Merge” gives all of it to another; “Split” gives part of it a place of its own. Either can be taken back here.',
          )}
        </Empty>
      ) : (
        <Ledger
          caption={say('Places merged and split')}
          rows={changes}
          rowKey={({ id }) => id}
          rowHref={({ id }) => `/places/changes/${id}`}
          columns={[
            { key: 'what', head: say('What was done'), cell: ({ what }) => what, phone: 'lead' },
            { key: 'day', head: say('Day'), cell: ({ at }) => <span className="nb">{dayOf(at)}</span>, phone: 'side' },
            { key: 'who', head: say('Who'), cell: ({ who }) => who ?? '' },
            {
              key: 'state',
              head: say('Now'),
              cell: ({ isUndone }) => (isUndone ? say('taken back') : say('stands')),
              isAtEnd: true,
            },
          ]}
        />
      )}
    </>
  )
}
