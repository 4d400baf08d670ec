import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { ProjectEdit } from '../project/project-row'
import { write } from '../write'
import { claimKit } from './claim-kit'
import type { KitItemRefusal } from './kit-item-refusal'

type Refused = Extract<KitItemRefusal, { kind: 'no-such-project' | 'kit-closed' | 'no-such-item' | 'changed-meanwhile' }>

/** Move an item of the list one place up or down; at the end of the list it stays. */
export function moveKitItem(input: ProjectEdit & { itemId: string; to: 'up' | 'down' }): Promise<Result<null, Refused>> {
  return write<null, Refused>(async (writing) => {
    const { tx } = writing
    const claimed = await claimKit(writing, input)
    if (!claimed.ok) return claimed
    const { id: projectId } = claimed.value
    const { itemId } = input
    const items = await tx.kitItem.findMany({
      where: { projectId },
      select: { id: true, position: true },
      orderBy: [{ position: 'asc' }, { id: 'asc' }],
    })
    const at = items.findIndex(({ id }) => id === itemId)
    const item = items[at]
    if (!item) return refused({ kind: 'no-such-item', itemId })
    const other = items[at + (input.to === 'up' ? -1 : 1)]
    if (!other) return ok(null)
    // Each position is one item's: the one goes where none is while the other takes its place.
    const aside = Math.max(...items.map(({ position }) => position)) + 1
    await tx.kitItem.update({ where: { id: item.id }, data: { position: aside } })
    await tx.kitItem.update({ where: { id: other.id }, data: { position: item.position } })
    await tx.kitItem.update({ where: { id: item.id }, data: { position: other.position } })
    return ok(null)
  })
}
