import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findPlaceChange, type KeptPlaceChange } from '#lib/db/place/place-change'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Facts } from '#ui/facts'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted, listed } from '#words/amounts'
import { dayOf } from '#words/date'
import { undoPlaceChangeAction } from '../../change-actions'
import { describeLeftThere, describeWentAlong } from '../../words'

export const generateMetadata = (): Metadata => ({ title: say('Places changed') })

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
        crumbs={[
          { label: say('Places'), href: '/places' },
          { label: say('Merged and split'), href: '/places/changes' },
          { label: what },
        ]}
        byline={`${dayOf(change.at)}${change.who ? say(', by {who}', { who: change.who }) : ''}.`}
      />
      {isUndone ? (
        <Notice
          kind="done"
          title={say('Taken back.')}
          actions={
            <LinkButton href={`/places/${places.fromId}`}>
              {sayParts('Look at {fromLabel}', { fromLabel: places.fromLabel })}
            </LinkButton>
          }
        >
          {stillSays || say('Everything is as it was before.')}
        </Notice>
      ) : (
        <Notice
          kind="done"
          title={doneWords(kept)}
          actions={
            <>
              <LinkButton href={`/places/${places.intoId}`}>
                {sayParts('Look at {intoLabel}', { intoLabel: places.intoLabel })}
              </LinkButton>
              <ConfirmDialog
                opener={say('Take it back')}
                title={say('Take back “{what}”?', { what })}
                confirm={say('Take it back')}
                action={undoPlaceChangeAction}
                hidden={{ changeId: change.id }}
              >
                <p>
                  {say(
                    'Everything goes back where it was. What was moved, used or changed since stays as it is and is counted; a label that another place has by then cannot be given back.',
                  )}
                </p>
              </ConfirmDialog>
            </>
          }
        />
      )}
      <Section title={say('What went along')}>
        <Facts items={describeWentAlong(kept)} />
      </Section>
      <Section title={say('The labels')}>
        <p>
          <PlaceLabel label={places.fromLabel} isAway={places.kind === 'merge' && !isUndone} />{' '}
          {places.kind === 'merge' ? say('leads to') : say('says also where part of it went:')}{' '}
          <PlaceLabel label={places.intoLabel} href={`/places/${places.intoId}`} />
        </p>
      </Section>
    </>
  )
}

const doneWords = ({ places, things, insideIds }: KeptPlaceChange): string =>
  places.kind === 'merge'
    ? say('Done: all of {fromLabel} is in {intoLabel} now.', { fromLabel: places.fromLabel, intoLabel: places.intoLabel })
    : say('Done: {what} of {fromLabel} {many, plural, one {lives} other {live}} in {intoLabel} now.', {
        what: listed([
          ...(things.length > 0 ? [counted(things.length, 'thing')] : []),
          ...(insideIds.length > 0 ? [counted(insideIds.length, 'place')] : []),
        ]),
        fromLabel: places.fromLabel,
        many: things.length + insideIds.length,
        intoLabel: places.intoLabel,
      })
