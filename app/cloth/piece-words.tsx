import Link from 'next/link'
import type { ClothListed } from '#lib/db/cloth/queries'

/** What else is to be known of a piece at a glance: reserved, offcut, square it first, hers or the shop's. */
export function PieceWords({ piece, hasOwner, isLinked }: { piece: ClothListed; hasOwner: boolean; isLinked: boolean }) {
  return (
    <>
      {piece.reservedBy.map(({ projectId, title }) => (
        <span key={projectId} className="nb">
          reserved for{' '}
          {isLinked ? (
            <Link href={`/projects/${projectId}`} className="title">
              {title}
            </Link>
          ) : (
            <span className="title">{title}</span>
          )}
        </span>
      ))}
      {piece.isOffcut && <span className="nb">offcut</span>}
      {!piece.isSquared && <span className="nb">square it first</span>}
      {!piece.isTurnable && <span className="nb">not to be turned</span>}
      {hasOwner && <span className="nb">{piece.ownerName}</span>}
    </>
  )
}
