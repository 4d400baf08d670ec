import type { Metadata } from 'next'
import { listPlaceChanges } from '#lib/db/place/place-change'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { dayOf } from '#words/date'

export const metadata: Metadata = { title: 'Places merged and split' }

const changesShown = 200

export default async function PlaceChangesPage() {
  const changes = await listPlaceChanges(changesShown)
  return (
    <>
      <PageHead
        title="Merged and split"
        crumbs={[{ label: 'Places', href: '/places' }, { label: 'Merged and split' }]}
        byline={changes.length > 0 && 'The latest first. Each can be taken back, as far as nothing else was changed since.'}
      />
      {changes.length === 0 ? (
        <Empty title="No place was merged or split yet" actions={<LinkButton href="/places">All places</LinkButton>}>
          On the page of a place, “Merge” gives all of it to another; “Split” gives part of it a place of its own. Either can be
          taken back here.
        </Empty>
      ) : (
        <Ledger
          caption="Places merged and split"
          rows={changes}
          rowKey={({ id }) => id}
          rowHref={({ id }) => `/places/changes/${id}`}
          columns={[
            { key: 'what', head: 'What was done', cell: ({ what }) => what, phone: 'lead' },
            { key: 'day', head: 'Day', cell: ({ at }) => <span className="nb">{dayOf(at)}</span>, phone: 'side' },
            { key: 'who', head: 'Who', cell: ({ who }) => who ?? '' },
            { key: 'state', head: 'Now', cell: ({ isUndone }) => (isUndone ? 'taken back' : 'stands'), isAtEnd: true },
          ]}
        />
      )}
    </>
  )
}
