import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatClothSize } from '#language/lengths'
import { type CutPlanDetail, findCutPlan } from '#lib/db/cut-plan/queries'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { pieceName } from '#words/cloth'
import { dayOf } from '#words/date'
import { giveUpAction } from '../actions'
import { cutQuery } from '../choices'
import s from '../cut.module.css'
import { formOfAsked } from '../form-of-asked'
import { PlanPieces, PlanSum } from '../plan-view'
import { shownPlan } from '../shown-plan'
import { statusWords } from '../words'

type PageProps = { params: Promise<{ planId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const plan = await findCutPlan((await params).planId)
  return { title: plan ? plan.title : 'Plan of cuts' }
}

export default async function CutPlanPage({ params }: PageProps) {
  const [kept, { settings, ownerName }] = await Promise.all([findCutPlan((await params).planId), getViewer()])
  if (!kept) notFound()
  const unit = settings.lengthUnit
  const shown = shownPlan(kept, kept.pieces, unit)
  const isOpen = kept.status === 'kept'
  const heldIds = kept.pieces.filter(({ isGone }) => !isGone).map(({ id }) => id)
  const againHref = `/cloth/cut/new?${cutQuery(formOfAsked(kept.asked, heldIds, unit))}`
  const changed = isOpen
    ? kept.pieces.filter(
        ({ isGone, planned, widthUm, heightUm }) => isGone || planned.widthUm !== widthUm || planned.heightUm !== heightUm,
      )
    : []
  return (
    <>
      <PageHead
        title={kept.title}
        crumbs={[{ label: 'Cloth', href: '/cloth' }, { label: 'Plans of cuts', href: '/cloth/cut' }, { label: kept.title }]}
        byline={
          kept.closedAt
            ? `Made ${dayOf(kept.createdAt)}, ${statusWords[kept.status]} ${dayOf(kept.closedAt)}.`
            : `Made ${dayOf(kept.createdAt)}. Its pieces are set aside until they are cut.`
        }
        actions={
          <>
            {isOpen && (
              <LinkButton kind="first" href={`/cloth/cut/${kept.id}/carry-out`}>
                It is cut
              </LinkButton>
            )}
            {isOpen && (
              <ConfirmDialog
                opener="Give it up"
                title="Give this plan up?"
                confirm="Give it up"
                action={giveUpAction}
                hidden={{ planId: kept.id, version: String(kept.version) }}
              >
                <p>Its pieces are free for other things again. The plan stays on the list, but cannot be carried out any more.</p>
              </ConfirmDialog>
            )}
            {kept.status === 'dropped' && <LinkButton href={againHref}>Make it again</LinkButton>}
          </>
        }
      />
      <PrintLine>
        Plan of cuts, cloth of {ownerName}, made {dayOf(kept.createdAt)}
      </PrintLine>
      {changed.length > 0 && (
        <Notice kind="refusal" title={`${listed(changed.map(pieceName))} changed since this plan was made`}>
          It cannot be carried out as it is. Give it up, and make it again from here.
        </Notice>
      )}
      <PlanSum {...shown} />
      <Sheets planId={kept.id} />
      {kept.status === 'cut' && <Made kept={kept} unit={unit} />}
      <PlanPieces {...shown} />
    </>
  )
}

const sheets = [
  ['Drawings to scale, A4', 'paper=a4'],
  ['Letter', 'paper=letter'],
  ['Pattern in actual size, A4', 'paper=a4&size=actual'],
  ['Letter', 'paper=letter&size=actual'],
] as const

/** The plan on paper, true to the millimetre. */
function Sheets({ planId }: { planId: string }) {
  return (
    <p className={`no-print ${s.sheets}`}>
      <span>To print:</span>
      {sheets.map(([label, query]) => (
        <a key={query} href={`/cloth/cut/${planId}/sheet.pdf?${query}`}>
          {label}
        </a>
      ))}
    </p>
  )
}

/** What came of it. */
function Made({ kept, unit }: { kept: CutPlanDetail; unit: LengthUnit }) {
  return (
    <Section title="What was cut" note="as measured">
      <ul className={s.choices}>
        {kept.made.map((piece) => (
          <li key={piece.id}>
            <Link className={s.made} href={`/cloth/${piece.id}`}>
              {[piece.label ?? 'no label', formatClothSize(piece, unit), piece.isGone && 'gone'].filter(Boolean).join(', ')}
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  )
}
