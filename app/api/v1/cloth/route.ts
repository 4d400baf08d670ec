import { placeRef } from '#api/collection'
import { chosenOwners } from '#api/owners'
import { pageOf } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listClothOperation } from '#api/stock'
import { listCloth } from '#lib/db/cloth/queries'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'

const list = serve(listClothOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const pieces = (await listCloth(ownerIds)).filter(
    (piece) =>
      (query.weave === undefined || piece.weave === query.weave) && (query.free === undefined || piece.isReserved !== query.free),
  )
  const page = pageOf(pieces, query, ({ id }) => id)
  if (page instanceof Problem) return page
  return {
    ownerIds,
    total: pieces.length,
    pieces: page.shown.map((piece) => ({
      clothPieceId: piece.id,
      version: piece.version,
      ownerId: piece.ownerId,
      label: piece.label,
      name: piece.name,
      colourName: piece.colourName,
      weave: piece.weave,
      ends: piece.ends,
      picks: piece.picks,
      countText: formatCount(piece.ends, piece.picks),
      widthUm: piece.widthUm,
      heightUm: piece.heightUm,
      sizeText: formatClothSize(piece, 'in'),
      isSquared: piece.isSquared,
      isTurnable: piece.isTurnable,
      isOffcut: piece.isOffcut,
      reservedBy: piece.reservedBy.map(({ projectId, title }) => ({ projectId, title })),
      home: placeRef(piece.home),
      current: placeRef(piece.current),
    })),
    next: page.next,
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
