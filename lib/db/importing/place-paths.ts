import 'server-only'
import type { Write } from '../write-gate'

/** Bring every place's path in line with the places it is inside of. */
export async function setPlacePaths({ tx, touch }: Pick<Write, 'tx' | 'touch'>): Promise<void> {
  const places = await tx.place.findMany({ select: { id: true, parentId: true, path: true } })
  const byId = new Map(places.map((place) => [place.id, place]))
  const pathOf = (id: string): string => {
    const parentId = byId.get(id)?.parentId
    return `${parentId ? pathOf(parentId) : '/'}${id}/`
  }
  for (const { id, path } of places) {
    const right = pathOf(id)
    if (path === right) continue
    await tx.place.update({ where: { id }, data: { path: right } })
    touch('place', id)
  }
}
