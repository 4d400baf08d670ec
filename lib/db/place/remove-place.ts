import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import { openProjects } from './place-counts'
import type { PlaceRefusal } from './place-refusal'

type Refusal = Extract<PlaceRefusal, { kind: 'not-empty' | 'changed-meanwhile' }>

/** Take a place off the map. Only once nobody's goods are in it or live there, and no place is inside it; its history stays. */
export function removePlace(input: { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async ({ tx, at, touch }) => {
    const { id, version } = input
    const uses = { goneAt: null, OR: [{ homePlaceId: id }, { currentPlaceId: id }] }
    const places = await tx.place.count({ where: { parentId: id, goneAt: null } })
    const threads = await tx.batch.count({ where: uses })
    const cloth = await tx.clothPiece.count({ where: uses })
    const charts = await tx.chart.count({ where: uses })
    const notions = await tx.notion.count({ where: uses })
    const projects = await tx.project.count({ where: { ...openProjects, placeId: id } })
    if (places + threads + cloth + charts + notions + projects > 0)
      return refused({ kind: 'not-empty', places, threads, cloth, charts, notions, projects })
    const claimed = await tx.place.updateMany({
      where: { id, version, goneAt: null },
      data: { goneAt: at, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('place', id)
    return ok(null)
  })
}
