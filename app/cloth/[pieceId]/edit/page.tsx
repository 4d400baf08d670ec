import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findClothCard, findClothPiece } from '#lib/db/cloth/queries'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { pieceTitle } from '#words/cloth'
import { calendarDay } from '#words/date'
import { editClothAction } from '../../actions'
import { PieceFields } from '../../piece-fields'

export const generateMetadata = (): Metadata => ({ title: say('Change a piece of cloth') })

export default async function EditClothPage({ params }: { params: Promise<{ pieceId: string }> }) {
  const { pieceId } = await params
  const [piece, card, { settings }] = await Promise.all([findClothPiece(pieceId), findClothCard(pieceId), getViewer()])
  if (!piece || !card || piece.isGone) notFound()
  return (
    <>
      <PageHead
        title={say('Change {pieceTitle}', { pieceTitle: pieceTitle(piece) })}
        crumbs={[
          { label: say('Cloth'), href: '/cloth' },
          { label: pieceTitle(piece), href: `/cloth/${piece.id}` },
          { label: say('Change') },
        ]}
      />
      <Form
        action={editClothAction}
        hidden={{ id: piece.id, version: String(piece.version) }}
        submit={say('Save')}
        actions={<LinkButton href={`/cloth/${piece.id}`}>{say('Leave it')}</LinkButton>}
      >
        <PieceFields unit={settings.lengthUnit} today={calendarDay(new Date())} held={card} />
      </Form>
    </>
  )
}
