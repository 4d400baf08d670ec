import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findClothPiece } from '#lib/db/cloth/queries'
import { LinkButton } from '#ui/button'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Steps } from '#ui/steps'
import { getViewer } from '#viewer/viewer'
import { pieceTitle } from '#words/cloth'
import { CountDesk } from './count-desk'

export const generateMetadata = (): Metadata => ({ title: say('What count is it?') })

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
        title={piece ? say('Count {pieceTitle}', { pieceTitle: pieceTitle(piece) }) : say('What count is it?')}
        crumbs={[
          { label: say('Cloth'), href: '/cloth' },
          ...(piece ? [{ label: pieceTitle(piece), href: `/cloth/${piece.id}` }] : []),
          { label: piece ? say('Count it') : say('Identify a piece') },
        ]}
        actions={piece && <LinkButton href={`/cloth/${piece.id}`}>{say('Leave it')}</LinkButton>}
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
      <Section title={say('How to count')} id="how">
        <Steps
          items={[
            say(
              'Lay the cloth flat and let it rest; do not stretch it. Stay a hand’s breadth from the selvedge, where threads lie closer.',
            ),
            say(
              'Lay a ruler along one thread and mark {isIn, select, yes {2 inches} other {5 cm}}: a longer length forgives a slip.',
              { isIn: unit === 'in' },
            ),
            say(
              'Count with a needle’s point, thread by thread; a counting glass helps. Of block cloth count the blocks. At the end of the length half a thread counts half.',
            ),
            say('Count across first, then turn the ruler and count up, along the selvedge. Do both in three places.'),
            say('Do not trust the label: cloth sold as 32 may be 31 one way and 33 the other.'),
          ]}
        />
        <p>
          {say('Let eyes and hands rest between counts, in good light; put the needle back in its case, never in the cloth.')}
        </p>
      </Section>
    </>
  )
}
