import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { write } from '../write'
import type { Write } from '../write-gate'
import { repoint } from './merge-place'
import { moveBranch } from './move-branch'
import { type KeptPlaceChange, placeStepsBegin, readPlaceSteps } from './place-change'
import type { PlaceRefusal } from './place-refusal'
import { readRoom, writeRoom } from './place-room'
import { readHoused, rehouseThings, thingKey } from './rehouse-things'
import { whatIsThere } from './remove-place'
import { type Standing, standAgain } from './stand-again'

export type UndoPlaceChangeRefused = Extract<
  PlaceRefusal,
  { kind: 'no-such-change' | 'already-undone' | 'label-taken' | 'changed-meanwhile' }
>

/** What was taken back, and what was left as it is now, for it was changed since. */
export type PlaceChangeUndone = {
  placeId: string
  things: number
  left: NonNullable<KeptPlaceChange['left']>
}

const timeoutMs = 180_000

/**
 * Take a merge or a split back in one write. What was changed since stays where it is and is counted: a skein used, a place moved on, the
 * room said anew. A merged place stands again under its label, unless another has that label now; a place split off is taken off the map
 * again once it is empty.
 */
export function undoPlaceChange(input: {
  changeId: string
  who?: string | null
}): Promise<Result<PlaceChangeUndone, UndoPlaceChangeRefused>> {
  requireWhole()
  return write<PlaceChangeUndone, UndoPlaceChangeRefused>(async (open) => {
    const { tx } = open
    const { changeId, who = null } = input
    const row = await tx.bulkEdit.findFirst({ where: { id: changeId, stepsJson: { startsWith: placeStepsBegin } } })
    if (!row) return refused({ kind: 'no-such-change', changeId })
    const claimed = await tx.bulkEdit.updateMany({
      where: { id: changeId, status: 'done', version: row.version },
      data: { status: 'undone', version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'already-undone', changeId })
    const kept = readPlaceSteps(row.stepsJson)
    const { fromId, intoId, formerLabelId, kind } = kept.places

    const from = kind === 'merge' ? await standAgain(open, { id: fromId }) : await stillThere(open, fromId)
    if (!from.ok) return from
    const things = await takeBackThings(open, kept, { reason: `${row.what}, taken back`, who })
    const places = await takeBackPlaces(open, kept, from.value)
    await tx.formerLabel.deleteMany({ where: { id: { in: [formerLabelId] } } })
    for (const id of kept.formerLabelIds)
      await tx.formerLabel.updateMany({ where: { id, placeId: intoId }, data: { placeId: fromId } })
    if (kind === 'merge') await repoint(open, { fromId: intoId, toId: fromId, only: kept })
    const left = {
      things: kept.things.length - things,
      places: kept.insideIds.length - places,
      room: kind === 'merge' && !(await takeBackRoom(open, kept)),
      newPlace: kind === 'split' && !(await takeOffMap(open, intoId)),
    }
    // Part of what lived under the label is still elsewhere, and the label goes on saying so.
    if (left.newPlace && left.things + left.places > 0)
      await tx.formerLabel.create({
        data: {
          ...{ id: formerLabelId, placeId: intoId, why: 'split', until: row.at },
          ...{ label: kept.places.fromLabel, labelKey: textKey(kept.places.fromLabel) },
        },
      })
    await tx.bulkEdit.update({ where: { id: changeId }, data: { stepsJson: JSON.stringify({ ...kept, left }) } })
    return ok({ placeId: fromId, things, left })
  }, timeoutMs)
}

async function stillThere({ tx }: Write, id: string): Promise<Result<Standing, UndoPlaceChangeRefused>> {
  const place = await tx.place.findFirst({ where: { id, goneAt: null }, select: { id: true, path: true } })
  return place ? ok(place) : refused({ kind: 'changed-meanwhile' })
}

/** @returns how many went back */
async function takeBackThings(
  open: Write,
  kept: KeptPlaceChange,
  context: { reason: string; who: string | null },
): Promise<number> {
  const { tx } = open
  const now = await readHoused(tx, kept.things)
  const named = new Set(kept.things.flatMap(({ before }) => [before.homePlaceId, before.currentPlaceId]))
  named.delete(null)
  const standing = new Set<string | null>([null])
  for (const id of named) if (id !== null && (await tx.place.count({ where: { id, goneAt: null } })) > 0) standing.add(id)
  const back = kept.things.flatMap(({ noun, id, before, versionAfter }) => {
    const thing = now.get(thingKey({ noun, id }))
    const isSame = thing?.version === versionAfter && standing.has(before.homePlaceId) && standing.has(before.currentPlaceId)
    return isSame ? { thing, after: before, fromPlaceId: kept.places.intoId, toPlaceId: kept.places.fromId } : []
  })
  await rehouseThings(open, back, context)
  return back.length
}

/** @returns how many went back */
async function takeBackPlaces(open: Write, { insideIds, places }: KeptPlaceChange, into: Standing): Promise<number> {
  let back = 0
  for (const id of insideIds) {
    const place = await open.tx.place.findFirst({
      where: { id, parentId: places.intoId, goneAt: null },
      select: { id: true, path: true },
    })
    if (!place) continue
    await moveBranch(open, place, into)
    back++
  }
  return back
}

const inOrder = ({ capacity, putUps }: Awaited<ReturnType<typeof readRoom>>): string =>
  JSON.stringify([capacity, putUps.map(({ putUpWord, most }) => `${putUpWord} ${most}`).sort()])

/** @returns whether the room is as it was before */
async function takeBackRoom({ tx, touch }: Write, { room, places }: KeptPlaceChange): Promise<boolean> {
  if (room === null) return true
  if (inOrder(await readRoom(places.intoId, tx)) !== inOrder(room.after)) return false
  await writeRoom(tx, places.intoId, room.before)
  await tx.place.update({ where: { id: places.intoId }, data: { version: { increment: 1 } } })
  touch('place', places.intoId)
  return true
}

/** @returns whether it is off the map: only an empty place goes */
async function takeOffMap({ tx, at, touch }: Write, id: string): Promise<boolean> {
  const place = await tx.place.findFirst({ where: { id, goneAt: null }, select: { id: true } })
  if (!place) return true
  if (Object.values(await whatIsThere(tx, id)).some((count) => count > 0)) return false
  await tx.place.update({ where: { id }, data: { goneAt: at, version: { increment: 1 } } })
  touch('place', id)
  return true
}
