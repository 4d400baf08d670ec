import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import { beyondSight } from '../sight/sighted-client'
import { write } from '../write'
import { openProjects } from './place-counts'
import type { PlaceRefusal } from './place-refusal'

type Refusal = Extract<PlaceRefusal, { kind: 'not-empty' | 'changed-meanwhile' }>

/** Take a place off the map. Only once nobody's goods are in it or live there, and no place is inside it; its history stays. */
export function removePlace(input: { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async ({ tx, at, touch }) => {
    const { id, version } = input
    const there = await whatIsThere(tx, id)
    if (Object.values(there).some((count) => count > 0)) return refused({ kind: 'not-empty', ...there })
    const claimed = await tx.place.updateMany({
      where: { id, version, goneAt: null },
      data: { goneAt: at, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('place', id)
    return ok(null)
  })
}

/** What stands inside a place, lives or lies in it, or is kitted there, of all owners, seen or not. */
export async function whatIsThere(seen: Transaction, id: string) {
  const tx = beyondSight(seen)
  const uses = { goneAt: null, OR: [{ homePlaceId: id }, { currentPlaceId: id }] }
  return {
    places: await tx.place.count({ where: { parentId: id, goneAt: null } }),
    threads: await tx.batch.count({ where: uses }),
    cloth: await tx.clothPiece.count({ where: uses }),
    charts: await tx.chart.count({ where: uses }),
    notions: await tx.notion.count({ where: uses }),
    projects: await tx.project.count({ where: { ...openProjects, placeId: id } }),
  }
}
