import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ClothListed } from '#lib/db/cloth/queries'
import { Link } from '#ui/link'
import { notTurnedWords } from '#words/cloth-care'

/** What else is to be known of a piece at a glance: what keeps it, offcut, square it first, count it again, hers or the shop's. */
export function PieceWords({
  piece,
  hasOwner,
  isLinked,
}: {
  piece: Omit<ClothListed, 'outSince'>
  hasOwner: boolean
  isLinked: boolean
}) {
  return (
    <>
      {piece.reservedBy.map(({ projectId, title }) => (
        <span key={projectId} className="nb">
          {sayParts('reserved for {isLinked}', {
            isLinked: isLinked ? (
              <Link href={`/projects/${projectId}`} className="title">
                {title}
              </Link>
            ) : (
              <span className="title">{title}</span>
            ),
          })}
        </span>
      ))}
      {piece.plannedIn.map(({ planId, title }) => (
        <span key={planId}>
          {sayParts('kept by the plan of cuts {isLinked}', {
            isLinked: isLinked ? <Link href={`/cloth/cut/${planId}`}>{title}</Link> : title,
          })}
        </span>
      ))}
      {piece.isOffcut && <span className="nb">{say('offcut')}</span>}
      {!piece.isSquared && <span className="nb">{say('square it first')}</span>}
      {piece.isCountStale && <span className="nb">{say('count it again: washed since')}</span>}
      {!piece.isTurnable && <span>{notTurnedWords(piece.oneWayBecause)}</span>}
      {piece.washState === 'never' && <span className="nb">{say('not to be washed')}</span>}
      {piece.bleedTest === 'bled' && <span className="nb">{say('its dye runs')}</span>}
      {hasOwner && <span className="nb">{piece.ownerName}</span>}
    </>
  )
}
