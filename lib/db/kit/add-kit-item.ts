import 'server-only'
import type { KitItem } from '#lib/project/kit/item'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import type { ProjectEdit } from '../project/project-row'
import { write } from '../write'
import { checkNotion, claimKit, refusePacked } from './claim-kit'
import type { KitItemRefusal } from './kit-item-refusal'

/** More than any bag holds. */
const mostKitItems = 100

type AddKitItem = ProjectEdit & Omit<KitItem, 'id'>

type Refused = Extract<
  KitItemRefusal,
  {
    kind:
      | 'no-such-project'
      | 'kit-closed'
      | 'no-such-notion'
      | 'other-owner'
      | 'bags-packed'
      | 'too-many-items'
      | 'changed-meanwhile'
  }
>

/** One thing more in every kit, at the end of the list. From then on it is set aside of its stock for as many kits as are to be packed. */
export function addKitItem(input: AddKitItem): Promise<Result<{ itemId: string }, Refused>> {
  return write<{ itemId: string }, Refused>(async (writing) => {
    const { tx, touch } = writing
    const claimed = await claimKit(writing, input)
    if (!claimed.ok) return claimed
    const { id: projectId, ownerId } = claimed.value
    const { kind, name, perKit, notionId, priceMinor, note } = input
    const checked = await checkNotion(writing, { notionId, ownerId })
    if (!checked.ok) return checked
    const packed = await refusePacked(writing, projectId)
    if (!packed.ok) return packed
    const there = await tx.kitItem.findMany({ where: { projectId }, select: { position: true } })
    if (there.length >= mostKitItems) return refused({ kind: 'too-many-items', most: mostKitItems })
    const itemId = newId()
    const position = Math.max(-1, ...there.map((item) => item.position)) + 1
    await tx.kitItem.create({ data: { id: itemId, projectId, position, kind, name, perKit, notionId, priceMinor, note } })
    if (notionId) touch('notion', notionId)
    return ok({ itemId })
  })
}
