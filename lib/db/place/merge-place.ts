import 'server-only'
import { addedRoom, checkMerge, type MergeRefused, rehoused } from '#lib/place/merge-places'
import type { Place } from '#lib/place/place'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import { write } from '../write'
import type { Write } from '../write-gate'
import { rememberLabel } from './former-label'
import { moveBranch } from './move-branch'
import type { KeptPlaceChange } from './place-change'
import type { PlaceRefusal } from './place-refusal'
import { readRoom, writeRoom } from './place-room'
import { placeColumns } from './place-rows'
import { readHousedIn, rehouseThings } from './rehouse-things'

export type MergePlaceRefused =
  | MergeRefused
  | Extract<PlaceRefusal, { kind: 'no-such-place' | 'changed-meanwhile' | 'being-counted' }>

export type PlaceMerged = { changeId: string; things: number; inside: number; projects: number }

const timeoutMs = 180_000

/**
 * Give a place up for another: everybody's goods that live or lie in it, the places inside it, its kits, loans and open lists and, if asked,
 * its room go to the other; its label leads there from now on. Kept as one change that `undoPlaceChange` takes back.
 */
export function mergePlace(input: {
  id: string
  version: number
  intoId: string
  /** The version of the place that takes it in, as the person saw it; left out, as it stands. */
  intoVersion?: number | undefined
  /** The other takes from now on what both took. */
  addsRoom: boolean
  who?: string | null
}): Promise<Result<PlaceMerged, MergePlaceRefused>> {
  requireWhole()
  return write<PlaceMerged, MergePlaceRefused>(async (open) => {
    const { tx, at, touch } = open
    const { id, version, intoId, who = null } = input
    const into = (await tx.place.findFirst({ where: { id: intoId, goneAt: null }, select: placeColumns })) as
      | (Place & { version: number })
      | null
    if (!into) return refused({ kind: 'no-such-place', placeId: intoId })
    const from = (await tx.place.findFirst({ where: { id, version, goneAt: null }, select: placeColumns })) as Place | null
    if (!from || (input.intoVersion !== undefined && into.version !== input.intoVersion))
      return refused({ kind: 'changed-meanwhile' })
    const allowed = checkMerge(from, into)
    if (!allowed.ok) return allowed
    if (await isBeingCounted(tx, id)) return refused({ kind: 'being-counted', label: from.label })

    const what = `${from.label} merged into ${into.label}`
    const housed = await readHousedIn(tx, id)
    const things = await rehouseThings(
      open,
      housed.map((thing) => ({ thing, after: rehoused(thing, id, intoId), fromPlaceId: id, toPlaceId: intoId })),
      { reason: what, who },
    )
    const inside = await tx.place.findMany({ where: { parentId: id, goneAt: null }, select: { id: true, path: true } })
    for (const place of inside) await moveBranch(open, place, into)
    const room = await mergeRoom(tx, id, intoId, input.addsRoom)
    const pointers = await repoint(open, { fromId: id, toId: intoId })
    await tx.place.update({ where: { id }, data: { goneAt: at, version: { increment: 1 } } })
    await tx.place.update({ where: { id: intoId }, data: { version: { increment: 1 } } })
    touch('place', id)
    touch('place', intoId)

    const formerLabels = await tx.formerLabel.findMany({ where: { placeId: id }, select: { id: true } })
    await tx.formerLabel.updateMany({ where: { placeId: id }, data: { placeId: intoId } })
    const formerLabelId = await rememberLabel(open, { label: from.label, placeId: intoId, why: 'merged' })

    const changeId = newId()
    const kept: KeptPlaceChange = {
      places: { kind: 'merge', fromId: id, fromLabel: from.label, intoId, intoLabel: into.label, formerLabelId },
      things: housed.map(({ noun, id: thingId, homePlaceId, currentPlaceId }, index) => ({
        noun,
        id: thingId,
        before: { homePlaceId, currentPlaceId },
        versionAfter: things[index]?.version as number,
      })),
      insideIds: inside.map((place) => place.id),
      formerLabelIds: formerLabels.map((row) => row.id),
      ...pointers,
      room,
    }
    await tx.bulkEdit.create({ data: { id: changeId, at, who, what, stepsJson: JSON.stringify(kept) } })
    return ok({ changeId, things: things.length, inside: inside.length, projects: pointers.projectIds.length })
  }, timeoutMs)
}

/** Whether a count that is still open has its sheet there. */
async function isBeingCounted(tx: Transaction, placeId: string): Promise<boolean> {
  const open = await tx.stockCount.count({
    where: { status: 'open', OR: [{ placeId }, { lines: { some: { placeId } } }] },
  })
  return open > 0
}

async function mergeRoom(tx: Transaction, fromId: string, intoId: string, adds: boolean): Promise<KeptPlaceChange['room']> {
  const [from, before] = [await readRoom(fromId, tx), await readRoom(intoId, tx)]
  if (!adds || (from.capacity === null && from.putUps.length === 0)) return null
  const after = addedRoom(before, from)
  await writeRoom(tx, intoId, after)
  return { before: plain(before), after: plain(after) }
}

const plain = ({ capacity, putUps }: Awaited<ReturnType<typeof readRoom>>) => ({ capacity, putUps: [...putUps] })

type Pointers = Pick<KeptPlaceChange, 'projectIds' | 'loanIds' | 'walkIds' | 'walkLineIds' | 'missingIds'>

const idsOf = (rows: readonly { id: string }[]): string[] => rows.map(({ id }) => id)

/** Lead everything else that names a place to another: kits, loans, open lists, what is looked for. `only`: those of an earlier change. */
export async function repoint(
  { tx, touch }: Write,
  { fromId, toId, only }: { fromId: string; toId: string; only?: Pointers },
): Promise<Pointers> {
  const among = (ids: readonly string[] | undefined) => new Set(ids)
  const chosen = (rows: readonly { id: string }[], ids: readonly string[] | undefined) =>
    ids === undefined ? idsOf(rows) : idsOf(rows).filter((id) => among(ids).has(id))
  const select = { id: true } as const
  const pointers: Pointers = {
    projectIds: chosen(await tx.project.findMany({ where: { placeId: fromId }, select }), only?.projectIds),
    loanIds: chosen(await tx.loan.findMany({ where: { placeId: fromId }, select }), only?.loanIds),
    walkIds: chosen(await tx.walk.findMany({ where: { placeId: fromId, status: 'open' }, select }), only?.walkIds),
    walkLineIds: chosen(
      await tx.walkLine.findMany({ where: { toPlaceId: fromId, walk: { status: 'open' } }, select }),
      only?.walkLineIds,
    ),
    missingIds: chosen(
      await tx.missingThing.findMany({ where: { lastSeenPlaceId: fromId, status: 'open' }, select }),
      only?.missingIds,
    ),
  }
  const raised = { increment: 1 }
  for (const id of pointers.projectIds) {
    await tx.project.update({ where: { id }, data: { placeId: toId, version: raised } })
    touch('project', id)
  }
  for (const id of pointers.loanIds) await tx.loan.update({ where: { id }, data: { placeId: toId, version: raised } })
  for (const id of pointers.walkIds) await tx.walk.update({ where: { id }, data: { placeId: toId, version: raised } })
  for (const id of pointers.walkLineIds) await tx.walkLine.update({ where: { id }, data: { toPlaceId: toId } })
  for (const id of pointers.missingIds)
    await tx.missingThing.update({ where: { id }, data: { lastSeenPlaceId: toId, version: raised } })
  return pointers
}
