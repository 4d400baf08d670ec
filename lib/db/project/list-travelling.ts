import 'server-only'
import { stitchSize } from '#lib/chart/design-size'
import { finishedSize } from '#lib/cloth/finished-size'
import { workedCloth } from '#lib/coverage/worked-cloth'
import type { Place } from '#lib/place/place'
import { isWithin } from '#lib/project/travelling'
import { clothSettings } from '../answers/answers'
import { getAnswers } from '../answers/get-answers'
import { database } from '../client'

type Size = { widthUm: number; heightUm: number }

export type Travelling = {
  id: string
  title: string
  quantity: number
  /** As it comes out on its cloth. */
  size: Size
  /** What it is worked on; null where only the chart’s advice is known. */
  cloth: { id: string; label: string | null; name: string; size: Size } | null
  bag: Pick<Place, 'id' | 'label'> | null
}

/**
 * What is kitted and no larger than a size, whichever way round, the smallest first.
 *
 * @returns with them, how many kitted works have no known size
 */
export async function listTravelling(asked: {
  ownerIds: readonly string[]
  most: Size
}): Promise<{ works: Travelling[]; unknown: number }> {
  const { world } = await getAnswers()
  const pieces = new Map(world.pieces.map((piece) => [piece.id, piece]))
  const projects = await database().prisma.project.findMany({
    where: { ownerId: { in: [...asked.ownerIds] }, status: 'kitted', goneAt: null },
    select: { id: true, designId: true, clothPieceId: true, over: true, quantity: true, placeId: true },
    orderBy: { id: 'asc' },
  })
  let unknown = 0
  const works = projects.flatMap(({ designId, clothPieceId, over, placeId, ...project }): Travelling[] => {
    const design = world.designs.get(designId)?.design
    const size = design ? stitchSize(design) : null
    const piece = pieces.get(clothPieceId ?? '') ?? null
    const advised = design?.advised
    const cloth =
      (design && workedCloth(design, piece, over as 1 | 2 | null, clothSettings(world.settings))) ??
      (advised ? { ends: advised.count, picks: advised.count, over: advised.over, isTurned: false } : null)
    if (!design || !size || !cloth) {
      unknown++
      return []
    }
    const finished = finishedSize({ ...size, ...cloth })
    if (!isWithin(finished, asked.most)) return []
    const place = world.places.get(placeId ?? '')
    return [
      {
        ...{ ...project, title: design.title, size: { widthUm: finished.widthUm, heightUm: finished.heightUm } },
        cloth: piece && {
          id: piece.id,
          label: piece.label,
          name: piece.name,
          size: { widthUm: piece.widthUm, heightUm: piece.heightUm },
        },
        bag: place ? { id: place.id, label: place.label } : null,
      },
    ]
  })
  const longest = ({ size }: Travelling) => Math.max(size.widthUm, size.heightUm)
  return { works: works.sort((a, b) => longest(a) - longest(b) || (a.id < b.id ? -1 : 1)), unknown }
}
