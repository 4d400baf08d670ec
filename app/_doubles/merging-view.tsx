import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { BulkEditHead } from '#lib/db/bulk-edit/heads'
import { findMerging } from '#lib/db/merging/merging'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Facts } from '#ui/facts'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { type Crumb, PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { dayOf } from '#words/date'
import { undoMergingAction } from './actions'
import { alongWords, hrefOfMerged } from './words'

/** One merge: what was done, what went along, and the way back. */
export async function MergingView({ mergingId, crumbs }: { mergingId: string; crumbs: readonly Crumb[] }) {
  const merging = await findMerging(mergingId)
  if (!merging) notFound()
  const { kept, isUndone, what, at, who } = merging
  const { merged } = kept
  const href = hrefOfMerged(merged.noun, merged.keptId)
  const goneHref = hrefOfMerged(merged.noun, merged.goneId)
  const along = alongWords(kept)
  return (
    <>
      <PageHead
        title={what}
        crumbs={[...crumbs, { label: what }]}
        byline={`${dayOf(at)}${who ? say(', by {who}', { who }) : ''}.`}
      />
      {isUndone ? (
        <Notice
          kind="done"
          title={say('Taken back: they are two again.')}
          actions={
            goneHref && <LinkButton href={goneHref}>{sayParts('Look at {goneName}', { goneName: merged.goneName })}</LinkButton>
          }
        />
      ) : (
        <Notice
          kind="done"
          title={say('Done: {goneName} is {keptName} now.', { goneName: merged.goneName, keptName: merged.keptName })}
          actions={
            <>
              {href && <LinkButton href={href}>{sayParts('Look at {keptName}', { keptName: merged.keptName })}</LinkButton>}
              <ConfirmDialog
                opener={say('Take it back')}
                title={say('Make two of {keptName} again?', { keptName: merged.keptName })}
                confirm={say('Take it back')}
                action={undoMergingAction}
                hidden={{ mergingId }}
              >
                <p>
                  {sayParts(
                    'What was {goneName} is so again, with all that went along. What came since stays with {keptName}. Where something the merge wrote was changed since, nothing is done, and you are told what.',
                    { goneName: merged.goneName, keptName: merged.keptName },
                  )}
                </p>
              </ConfirmDialog>
            </>
          }
        >
          {sayParts('{goneName} is remembered: whoever types it, scans it or brings it in finds {keptName}.', {
            goneName: merged.goneName,
            keptName: merged.keptName,
          })}
        </Notice>
      )}
      {along.length > 0 && (
        <Section title={say('What went along')}>
          <Facts items={along} />
        </Section>
      )}
    </>
  )
}

/** What was merged lately, each with its way back. */
export function Mergings({ merged, base }: { merged: readonly BulkEditHead[]; base: string }) {
  if (merged.length === 0) return null
  return (
    <Section title={say('Merged so far')} id="merged" note={say('the latest first; each can be taken back')}>
      <Ledger
        caption={say('Doubles that were merged')}
        rows={merged}
        rowKey={({ id }) => id}
        rowHref={({ id }) => `${base}/${id}`}
        isTight
        columns={[
          { key: 'what', head: say('What was done'), cell: ({ what }) => what, phone: 'lead' },
          { key: 'day', head: say('Day'), cell: ({ at }) => <span className="nb">{dayOf(at)}</span>, phone: 'side' },
          {
            key: 'state',
            head: say('Now'),
            cell: ({ isUndone }) => (isUndone ? say('taken back') : say('stands')),
            isAtEnd: true,
          },
        ]}
      />
    </Section>
  )
}
