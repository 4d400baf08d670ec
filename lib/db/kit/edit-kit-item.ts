import 'server-only'
import type { KitItem } from '#lib/project/kit/item'
import { ok, type Result, refused } from '#lib/result'
import type { ProjectEdit } from '../project/project-row'
import { write } from '../write'
import { checkNotion, claimKit, refusePacked } from './claim-kit'
import type { KitItemRefusal } from './kit-item-refusal'

type Refused = Exclude<KitItemRefusal, { kind: 'too-many-items' }>

/** Say otherwise what goes into every kit. Its kind, number and stock stand once bags are packed by them; name, price and note do not. */
export function editKitItem(input: ProjectEdit & { itemId: string } & Omit<KitItem, 'id'>): Promise<Result<null, Refused>> {
  return write<null, Refused>(async (writing) => {
    const { tx, touch } = writing
    const claimed = await claimKit(writing, input)
    if (!claimed.ok) return claimed
    const { id: projectId, ownerId } = claimed.value
    const { itemId, kind, name, perKit, notionId, priceMinor, note } = input
    const before = await tx.kitItem.findFirst({ where: { id: itemId, projectId } })
    if (!before) return refused({ kind: 'no-such-item', itemId })
    if (before.kind !== kind || before.perKit !== perKit || before.notionId !== notionId) {
      const packed = await refusePacked(writing, projectId)
      if (!packed.ok) return packed
    }
    if (before.notionId !== notionId) {
      const checked = await checkNotion(writing, { notionId, ownerId })
      if (!checked.ok) return checked
    }
    await tx.kitItem.update({ where: { id: itemId }, data: { kind, name, perKit, notionId, priceMinor, note } })
    for (const id of new Set([before.notionId, notionId])) if (id) touch('notion', id)
    return ok(null)
  })
}
