import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
  return { title: plan ? plan.title : say('Plan of cuts') }
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
        crumbs={[
          { label: say('Cloth'), href: '/cloth' },
          { label: say('Plans of cuts'), href: '/cloth/cut' },
          { label: kept.title },
        ]}
        byline={
          kept.closedAt
            ? say('Made {createdAt}, {status} {closedAt}.', {
                createdAt: dayOf(kept.createdAt),
                status: statusWords[kept.status],
                closedAt: dayOf(kept.closedAt),
              })
            : say('Made {createdAt}. Its pieces are set aside until they are cut.', { createdAt: dayOf(kept.createdAt) })
        }
        actions={
          <>
            {isOpen && (
              <LinkButton kind="first" href={`/cloth/cut/${kept.id}/carry-out`}>
                {say('It is cut')}
              </LinkButton>
            )}
            {isOpen && (
              <ConfirmDialog
                opener={say('Give it up')}
                title={say('Give this plan up?')}
                confirm={say('Give it up')}
                action={giveUpAction}
                hidden={{ planId: kept.id, version: String(kept.version) }}
              >
                <p>
                  {say(
                    'Its pieces are free for other things again. The plan stays on the list, but cannot be carried out any more.',
                  )}
                </p>
              </ConfirmDialog>
            )}
            {kept.status === 'dropped' && <LinkButton href={againHref}>{say('Make it again')}</LinkButton>}
          </>
        }
      />
      <PrintLine>
        {sayParts('Plan of cuts, cloth of {ownerName}, made {createdAt}', { ownerName, createdAt: dayOf(kept.createdAt) })}
      </PrintLine>
      {changed.length > 0 && (
        <Notice
          kind="refusal"
          title={say('{changed} changed since this plan was made', { changed: listed(changed.map(pieceName)) })}
        >
          {say('It cannot be carried out as it is. Give it up, and make it again from here.')}
        </Notice>
      )}
      <PlanSum {...shown} />
      <Sheets planId={kept.id} />
      {kept.status === 'cut' && <Made kept={kept} unit={unit} />}
      <PlanPieces {...shown} />
    </>
  )
}

const sheets = () =>
  [
    [say('Drawings to scale, A4'), 'paper=a4'],
    [say('Letter'), 'paper=letter'],
    [say('Pattern in actual size, A4'), 'paper=a4&size=actual'],
    [say('Letter'), 'paper=letter&size=actual'],
  ] as const

/** The plan on paper, true to the millimetre. */
function Sheets({ planId }: { planId: string }) {
  return (
    <p className={`no-print ${s.sheets}`}>
      <span>{say('To print:')}</span>
      {sheets().map(([label, query]) => (
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
    <Section title={say('What was cut')} note={say('as measured')}>
      <ul className={s.choices}>
        {kept.made.map((piece) => (
          <li key={piece.id}>
            <Link className={s.made} href={`/cloth/${piece.id}`}>
              {[piece.label ?? say('no label'), formatClothSize(piece, unit), piece.isGone && say('gone')]
                .filter(Boolean)
                .join(', ')}
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  )
}
