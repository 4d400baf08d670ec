import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { Place } from '#lib/place/place'
import { PlaceLabel } from '#trade/place-label'
import { Link } from '#ui/link'
import { pieceName } from '#words/cloth'

type PiecePlaceProps = { piece: ClothPiece; places: ReadonlyMap<string, Place>; isPlaceOnly?: boolean }

/** A piece by its label, and where it is now. */
export function PiecePlace({ piece, places, isPlaceOnly = false }: PiecePlaceProps) {
  const place = places.get(piece.currentPlaceId ?? piece.homePlaceId ?? '')
  return (
    <>
      {!isPlaceOnly && <Link href={`/cloth/${piece.id}`}>{pieceName(piece)}</Link>}
      {place && (
        <>
          {!isPlaceOnly && ' '}
          <PlaceLabel label={place.label} href={`/places/${place.id}`} isAway={piece.currentPlaceId !== piece.homePlaceId} />
        </>
      )}
    </>
  )
}
