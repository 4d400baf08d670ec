import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { ProjectEdit } from '../project/project-row'
import { write } from '../write'
import { claimKit, refusePacked } from './claim-kit'
import type { KitItemRefusal } from './kit-item-refusal'

type Refused = Exclude<KitItemRefusal, { kind: 'too-many-items' | 'no-such-notion' | 'other-owner' }>

/** It goes into the kits no more; what was set aside of its stock is free again. */
export function removeKitItem(input: ProjectEdit & { itemId: string }): Promise<Result<null, Refused>> {
  return write<null, Refused>(async (writing) => {
    const claimed = await claimKit(writing, input)
    if (!claimed.ok) return claimed
    const { id: projectId } = claimed.value
    const { itemId } = input
    const item = await writing.tx.kitItem.findFirst({ where: { id: itemId, projectId }, select: { notionId: true } })
    if (!item) return refused({ kind: 'no-such-item', itemId })
    const packed = await refusePacked(writing, projectId)
    if (!packed.ok) return packed
    await writing.tx.kitItem.delete({ where: { id: itemId } })
    if (item.notionId) writing.touch('notion', item.notionId)
    return ok(null)
  })
}
