import 'server-only'
import { pathUnder } from '#lib/place/place-tree'
import { walkOrder } from '#lib/place/walk-order'
import { textKey } from '#lib/quantity/text-key'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { newId } from '../new-id'
import { retireLabel } from '../place/ensure-place'
import { type PlaceRecord, placeColumns } from '../place/place-rows'
import type { Write } from '../write-gate'
import type { FilingDrawer } from './read-filing'

/** Compartments written by one statement, each with six values. */
const compartmentsAtOnce = 100

/**
 * Put a drawer in beside another, next on the walk after it (or before it, at the start of a run), with its compartments. Where its label
 * alone does not say so, all that stand beside it get their turn in the walk written down.
 *
 * @param made.label  no place has it, nor any of those of the compartments
 * @param made.room   how many things it takes
 */
export async function addDrawer(
  { tx, touch }: Write,
  made: { label: string; compartments: readonly string[]; room: number; beside: FilingDrawer; isBefore: boolean },
): Promise<{ id: string; compartmentIds: string[] }> {
  const { label, beside, isBefore } = made
  const rows = (await tx.place.findMany({ where: { goneAt: null }, select: placeColumns })) as PlaceRecord[]
  const labelKey = textKey(label)
  for (const keys of chunks([label, ...made.compartments].map(textKey))) {
    const gone = await tx.place.findMany({ where: { labelKey: { in: keys }, goneAt: { not: null } }, select: { labelKey: true } })
    for (const place of gone) await retireLabel(tx, place.labelKey)
  }
  const parent = rows.find(({ id }) => id === beside.parentId) ?? null
  const id = newId()
  const added = {
    id,
    label,
    name: null,
    kind: beside.kind,
    parentId: parent?.id ?? null,
    path: pathUnder(parent, id),
    capacity: made.room,
  }
  const turn = await makeRoomInWalk()
  await tx.place.create({ data: { ...added, labelKey, walkOrder: turn } })
  const compartments = made.compartments.map((label) => ({ id: newId(), label, labelKey: textKey(label), parentId: id }))
  for (const some of chunks(compartments, compartmentsAtOnce)) {
    await tx.place.createMany({ data: some.map((one) => ({ ...one, kind: 'compartment', path: pathUnder(added, one.id) })) })
  }
  for (const placeId of [id, ...compartments.map((one) => one.id)]) touch('place', placeId)
  return { id, compartmentIds: compartments.map((one) => one.id) }

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
