import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { findClothPiece } from '#lib/db/cloth/queries'
import { LinkButton } from '#ui/button'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Steps } from '#ui/steps'
import { getViewer } from '#viewer/viewer'
import { pieceTitle } from '#words/cloth'
import { CountDesk } from './count-desk'

export const metadata: Metadata = { title: 'What count is it?' }

type PageProps = { searchParams: Promise<Record<string, unknown>> }

export default async function CountPage({ searchParams }: PageProps) {
  const { piece: pieceId } = await searchParams
  const [{ settings, owners }, piece] = await Promise.all([
    getViewer(),
    typeof pieceId === 'string' ? findClothPiece(pieceId) : null,
  ])
  if (pieceId !== undefined && (!piece || piece.isGone)) notFound()
  const unit = settings.lengthUnit
  return (
    <>
      <PageHead
        title={piece ? `Count ${pieceTitle(piece)}` : 'What count is it?'}
        crumbs={[
          { label: 'Cloth', href: '/cloth' },
          ...(piece ? [{ label: pieceTitle(piece), href: `/cloth/${piece.id}` }] : []),
          { label: piece ? 'Count it' : 'Identify a piece' },
        ]}
        actions={piece && <LinkButton href={`/cloth/${piece.id}`}>Leave it</LinkButton>}
      />
      <CountDesk
        unit={unit}
        canAdd={owners.length > 0}
        piece={
          piece && {
            ...{ id: piece.id, version: piece.version, title: pieceTitle(piece), weave: piece.weave },
            ...{ ends: piece.ends, picks: piece.picks, isTurnable: piece.isTurnable, oneWayBecause: piece.oneWayBecause },
          }
        }
      />
      <Section title="How to count" id="how">
        <Steps
          items={[
            'Lay the cloth flat and let it rest; do not stretch it. Stay a hand’s breadth from the selvedge, where threads lie closer.',
            `Lay a ruler along one thread and mark ${unit === 'in' ? '2 inches' : '5 cm'}: a longer length forgives a slip.`,
            'Count with a needle’s point, thread by thread; a counting glass helps. Of block cloth count the blocks. At the end of the length half a thread counts half.',
            'Count across first, then turn the ruler and count up, along the selvedge. Do both in three places.',
            'Do not trust the label: cloth sold as 32 may be 31 one way and 33 the other.',
          ]}
        />
        <p>Let eyes and hands rest between counts, in good light; put the needle back in its case, never in the cloth.</p>
      </Section>
    </>
  )
}
