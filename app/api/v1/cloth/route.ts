import { addClothPiece } from '#api/cloth-pieces'
import { placeRef } from '#api/collection'
import { answerPiece, describeClothRefusal, refuseComing, wantsTurning } from '#api/describe-cloth'
import { chosenOwners } from '#api/owners'
import { pageOf } from '#api/paging'
import { badParameter, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listClothOperation } from '#api/stock'
import { turningQuestion } from '#lib/cloth/care'
import { filterCloth } from '#lib/cloth/filter-cloth'
import { addCloth } from '#lib/db/cloth/add-cloth'
import { listCloth } from '#lib/db/cloth/queries'
import { formatClothSize, parseClothSize } from '#lib/quantity/cloth-length'
import { formatCount, meanPerInch, parseCount } from '#lib/quantity/count'

const list = serve(listClothOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const count = query.count === undefined ? null : parseCount(query.count)
  if (query.count !== undefined && !count) return badParameter('count', 'it is not a count.', '32, 34 x 31, 126 per 10 cm')
  const atLeast = query.sizeAtLeast === undefined ? null : parseClothSize(query.sizeAtLeast, 'in')
  if (query.sizeAtLeast !== undefined && !atLeast)
    return badParameter('sizeAtLeast', 'it is not a size.', '14 x 18 in, 35 x 45 cm')
  const held = (await listCloth(ownerIds)).filter((piece) => query.free === undefined || piece.isReserved !== query.free)
  const { shown: pieces } = filterCloth(held, {
    ...{ weave: query.weave ?? null, colour: query.colour ?? null, atLeast, placeId: null },
    ...{ count: count && meanPerInch(count.ends, count.picks), onlyOffcuts: false, onlyFree: false },
  })
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
      isCountStale: piece.isCountStale,
      dyeing: piece.dyeing,
      washState: piece.washState,
      isOffcut: piece.isOffcut,
      reservedBy: piece.reservedBy.map(({ projectId, title }) => ({ projectId, title })),
      plannedIn: piece.plannedIn.map(({ planId, title }) => ({ cutPlanId: planId, title })),
      home: placeRef(piece.home),
      current: placeRef(piece.current),
    })),
    next: page.next,
  }
})

const add = serve(addClothPiece, async ({ body }) => {
  const coming = refuseComing('washedOn', body.washedOn)
  if (coming) return coming
  const isTurnable = body.isTurnable ?? (body.oneWayBecause === null ? null : false)
  const why = isTurnable === null ? turningQuestion(body) : null
  if (why !== null) return wantsTurning(why)
  const added = await addCloth({ ...body, isTurnable: isTurnable ?? true })
  return added.ok ? answerPiece(added.value.id, added) : describeClothRefusal(added.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
