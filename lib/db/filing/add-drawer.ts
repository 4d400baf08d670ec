import 'server-only'
import { nextLabel } from '#lib/place/filing-moves'
import { pathUnder } from '#lib/place/place-tree'
import { walkOrder } from '#lib/place/walk-order'
import { textKey } from '#lib/quantity/text-key'
import { newId } from '../new-id'
import { retireLabel } from '../place/ensure-place'
import { type PlaceRecord, placeColumns } from '../place/place-rows'
import type { Write } from '../write-gate'
import type { FilingDrawer } from './read-filing'

/**
 * Put a drawer in beside another, next on the walk after it (or before it, at the start of a run). Where its label alone does not say so,
 * all that stand beside it get their turn in the walk written down.
 */
export async function addDrawer(
  { tx, touch }: Write,
  { beside, isBefore, capacity }: { beside: FilingDrawer; isBefore: boolean; capacity: number },
): Promise<string> {
  const rows = (await tx.place.findMany({ where: { goneAt: null }, select: placeColumns })) as PlaceRecord[]
  const taken = new Set(rows.map(({ label }) => textKey(label)))
  const label = nextLabel(beside.label, (label) => taken.has(textKey(label)))
  const labelKey = textKey(label)
  if (await tx.place.findUnique({ where: { labelKey }, select: { id: true } })) await retireLabel(tx, labelKey)
  const parent = rows.find(({ id }) => id === beside.parentId) ?? null
  const id = newId()
  const added = { id, label, name: null, kind: beside.kind, parentId: parent?.id ?? null, path: pathUnder(parent, id), capacity }
  const turn = await makeRoomInWalk()
  await tx.place.create({ data: { ...added, labelKey, walkOrder: turn } })
  touch('place', id)
  return id

  async function makeRoomInWalk(): Promise<number | null> {
    const siblings = walkOrder(rows.filter(({ parentId }) => parentId === beside.parentId)) as PlaceRecord[]
    const at = siblings.findIndex((sibling) => sibling.id === beside.id) + (isBefore ? 0 : 1)
    const wanted = [...siblings.map((sibling) => sibling.id).toSpliced(at, 0, id)]
    const byLabel = walkOrder([...siblings, { ...added, walkOrder: null }])
    if (byLabel.every((place, index) => place.id === wanted[index])) return null
    for (const [index, placeId] of wanted.entries()) {
      const sibling = siblings.find((other) => other.id === placeId)
      if (!sibling || sibling.walkOrder === index + 1) continue
      await tx.place.update({ where: { id: placeId }, data: { walkOrder: index + 1, version: { increment: 1 } } })
      touch('place', placeId)
    }
    return wanted.indexOf(id) + 1
  }
}
