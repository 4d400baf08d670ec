import { placeRef } from '#api/collection'
import { describePlaces } from '#api/describe-place'
import { chosenOwners } from '#api/owners'
import { getPlace } from '#api/places'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findPlaceContents, type Whereabouts } from '#lib/db/place/contents'
import { listPlaces } from '#lib/db/place/queries'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'

const whereabouts = ({ home, current, isOut }: Whereabouts) => ({ home: placeRef(home), current: placeRef(current), isOut })

const get = serve(getPlace, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { placeId } = path
  const places = describePlaces(await listPlaces())
  const place = places.find((other) => other.placeId === placeId)
  if (!place) return notFound('place', placeId)
  const contents = await findPlaceContents({ placeIds: [placeId], ownerIds })
  return {
    ownerIds,
    place,
    inside: places
      .filter(({ parentId }) => parentId === placeId)
      .map((inner) => ({ placeId: inner.placeId, label: inner.label })),
    threads: contents.threads.map((batch) => ({
      batchId: batch.id,
      version: batch.version,
      thread: {
        threadId: batch.threadId,
        maker: batch.makerName,
        line: batch.lineName,
        code: batch.code,
        name: batch.name,
      },
      lot: batch.lot,
      wholePutUps: batch.wholePutUps,
      partStrandTenths: batch.partStrandTenths,
      partCertainty: batch.partCertainty,
      ...whereabouts(batch),
    })),
    cloth: contents.cloth.map((piece) => ({
      clothPieceId: piece.id,
      label: piece.label,
      name: piece.name,
      colourName: piece.colourName,
      weave: piece.weave,
      countText: formatCount(piece.ends, piece.picks),
      widthUm: piece.widthUm,
      heightUm: piece.heightUm,
      sizeText: formatClothSize(piece, 'in'),
      ...whereabouts(piece),
    })),
    charts: contents.charts.map((chart) => ({
      chartId: chart.id,
      title: chart.title,
      designers: chart.designerNames,
      copies: chart.copies,
      ...whereabouts(chart),
    })),
    chartCount: contents.chartCount,
    notions: contents.notions.map((notion) => ({
      notionId: notion.id,
      kind: notion.kind,
      name: notion.name,
      size: notion.size,
      count: notion.count,
      ...whereabouts(notion),
    })),
    projects: contents.projects.map(({ id, title, status }) => ({ projectId: id, title, status })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
