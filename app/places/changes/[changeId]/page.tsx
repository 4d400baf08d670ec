import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { findPlaceChange, type KeptPlaceChange } from '#lib/db/place/place-change'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Facts } from '#ui/facts'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import { undoPlaceChangeAction } from '../../change-actions'
import { describeLeftThere, describeWentAlong } from '../../words'

export const metadata: Metadata = { title: 'Places changed' }

export default async function PlaceChangePage({ params }: { params: Promise<{ changeId: string }> }) {
  const change = await findPlaceChange((await params).changeId)
  if (!change) notFound()
  const { kept, isUndone, what } = change
  const { places, left } = kept
  const stillSays = left && describeLeftThere(left, places)
  return (
    <>
      <PageHead
        title={what}
        crumbs={[{ label: 'Places', href: '/places' }, { label: 'Merged and split', href: '/places/changes' }, { label: what }]}
        byline={`${dayOf(change.at)}${change.who ? `, by ${change.who}` : ''}.`}
      />
      {isUndone ? (
        <Notice
          kind="done"
          title="Taken back."
          actions={<LinkButton href={`/places/${places.fromId}`}>Look at {places.fromLabel}</LinkButton>}
        >
          {stillSays || 'Everything is as it was before.'}
        </Notice>
      ) : (
        <Notice
          kind="done"
          title={doneWords(kept)}
          actions={
            <>
              <LinkButton href={`/places/${places.intoId}`}>Look at {places.intoLabel}</LinkButton>
              <ConfirmDialog
                opener="Take it back"
                title={`Take back “${what}”?`}
                confirm="Take it back"
                action={undoPlaceChangeAction}
                hidden={{ changeId: change.id }}
              >
                <p>
                  Everything goes back where it was. What was moved, used or changed since stays as it is and is counted; a label
                  that another place has by then cannot be given back.
                </p>
              </ConfirmDialog>
            </>
          }
        />
      )}
      <Section title="What went along">
        <Facts items={describeWentAlong(kept)} />
      </Section>
      <Section title="The labels">
        <p>
          <PlaceLabel label={places.fromLabel} isAway={places.kind === 'merge' && !isUndone} />{' '}
          {places.kind === 'merge' ? 'leads to' : 'says also where part of it went:'}{' '}
          <PlaceLabel label={places.intoLabel} href={`/places/${places.intoId}`} />
        </p>
      </Section>
    </>
  )
}

const doneWords = ({ places, things, insideIds }: KeptPlaceChange): string =>
  places.kind === 'merge'
    ? `Done: all of ${places.fromLabel} is in ${places.intoLabel} now.`
    : `Done: ${[things.length > 0 && counted(things.length, 'thing'), insideIds.length > 0 && counted(insideIds.length, 'place')].filter(Boolean).join(' and ')} of ${places.fromLabel} live${things.length + insideIds.length === 1 ? 's' : ''} in ${places.intoLabel} now.`
