import { notFound } from 'next/navigation'
import { findMerging, type MergingHead } from '#lib/db/merging/merging'
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
      <PageHead title={what} crumbs={[...crumbs, { label: what }]} byline={`${dayOf(at)}${who ? `, by ${who}` : ''}.`} />
      {isUndone ? (
        <Notice
          kind="done"
          title="Taken back: they are two again."
          actions={goneHref && <LinkButton href={goneHref}>Look at {merged.goneName}</LinkButton>}
        />
      ) : (
        <Notice
          kind="done"
          title={`Done: ${merged.goneName} is ${merged.keptName} now.`}
          actions={
            <>
              {href && <LinkButton href={href}>Look at {merged.keptName}</LinkButton>}
              <ConfirmDialog
                opener="Take it back"
                title={`Make two of ${merged.keptName} again?`}
                confirm="Take it back"
                action={undoMergingAction}
                hidden={{ mergingId }}
              >
                <p>
                  What was {merged.goneName} is so again, with all that went along. What came since stays with {merged.keptName}.
                  Where something the merge wrote was changed since, nothing is done, and you are told what.
                </p>
              </ConfirmDialog>
            </>
          }
        >
          {merged.goneName} is remembered: whoever types it, scans it or brings it in finds {merged.keptName}.
        </Notice>
      )}
      {along.length > 0 && (
        <Section title="What went along">
          <Facts items={along} />
        </Section>
      )}
    </>
  )
}

/** What was merged lately, each with its way back. */
export function Mergings({ merged, base }: { merged: readonly MergingHead[]; base: string }) {
  if (merged.length === 0) return null
  return (
    <Section title="Merged so far" id="merged" note="the latest first; each can be taken back">
      <Ledger
        caption="Doubles that were merged"
        rows={merged}
        rowKey={({ id }) => id}
        rowHref={({ id }) => `${base}/${id}`}
        isTight
        columns={[
          { key: 'what', head: 'What was done', cell: ({ what }) => what, phone: 'lead' },
          { key: 'day', head: 'Day', cell: ({ at }) => <span className="nb">{dayOf(at)}</span>, phone: 'side' },
          { key: 'state', head: 'Now', cell: ({ isUndone }) => (isUndone ? 'taken back' : 'stands'), isAtEnd: true },
        ]}
      />
    </Section>
  )
}
