import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../../write'
import type { NoSuchPart } from './save-part'

/** Let a part change places with the one before or after it; at the end it stays. */
export function movePart(input: { id: string; to: 'earlier' | 'later' }): Promise<Result<{ projectId: string }, NoSuchPart>> {
  return write<{ projectId: string }, NoSuchPart>(async ({ tx, touch }) => {
    const { id, to } = input
    const mine = await tx.stitchAlongPart.findUnique({ where: { id }, select: { projectId: true } })
    if (!mine) return refused({ kind: 'no-such-part', id })
    const { projectId } = mine
    const parts = await tx.stitchAlongPart.findMany({
      where: { projectId },
      select: { id: true, position: true },
      orderBy: { position: 'asc' },
    })
    const at = parts.findIndex((part) => part.id === id)
    const [one, other] = [parts[at], parts[to === 'earlier' ? at - 1 : at + 1]]
    if (!one || !other) return ok({ projectId })
    const place = (partId: string, position: number) =>
      tx.stitchAlongPart.update({ where: { id: partId }, data: { position, version: { increment: 1 } } })
    // No two have one place at any moment, so one steps aside.
    await place(one.id, (parts.at(-1)?.position ?? 0) + 1)
    await place(other.id, one.position)
    await place(one.id, other.position)
    touch('project', projectId)
    return ok({ projectId })
  })
}
