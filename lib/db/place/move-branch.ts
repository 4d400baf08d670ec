import 'server-only'
import { pathUnder } from '#lib/place/place-tree'
import type { Write } from '../write-gate'

/** Put a place with all inside it under another, or at the top. Its right to stand there was checked before. */
export async function moveBranch(
  { tx, touch }: Write,
  place: { id: string; path: string },
  parent: { id: string; path: string } | null,
): Promise<void> {
  const path = pathUnder(parent, place.id)
  const branch = await tx.place.findMany({ where: { path: { startsWith: place.path } }, select: { id: true } })
  await tx.place.update({ where: { id: place.id }, data: { parentId: parent?.id ?? null } })
  await tx.$executeRaw`
    UPDATE "Place" SET "path" = ${path} || substr("path", ${place.path.length + 1}), "version" = "version" + 1
    WHERE "path" LIKE ${`${place.path}%`}`
  for (const { id } of branch) touch('place', id)
}
