import 'server-only'
import { rehoused } from '#lib/place/merge-places'
import type { Place } from '#lib/place/place'
import { pathUnder } from '#lib/place/place-tree'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { newId } from '../new-id'
import { write } from '../write'
import type { PlaceInput } from './add-place'
import { retireLabel } from './ensure-place'
import { rememberLabel } from './former-label'
import { moveBranch } from './move-branch'
import type { KeptPlaceChange } from './place-change'
import type { PlaceRefusal } from './place-refusal'
import { placeColumns } from './place-rows'
import { type HousedNoun, readHousedIn, rehouseThings, thingKey } from './rehouse-things'

export type SplitPlaceRefused = Extract<
  PlaceRefusal,
  { kind: 'label-taken' | 'changed-meanwhile' | 'nothing-chosen' | 'not-from-here' | 'kept-by-record' }
>

export type PlaceSplit = { changeId: string; newPlaceId: string; things: number; inside: number }

/** Where the new place stands: next to the old one, or in it. */
export const splitWays = ['beside', 'inside'] as const

/**
 * Give part of what lives in a place a place of its own, beside it or inside it. What is out stays out and has its home there. The label
 * remembers that these lived under it. Kept as one change that `undoPlaceChange` takes back.
 */
export function splitPlace(input: {
  id: string
  version: number
  place: Pick<PlaceInput, 'label' | 'name' | 'kind'>
  way: (typeof splitWays)[number]
  /** With the version the person saw. */
  things: readonly { noun: HousedNoun; id: string; version: number }[]
  /** Places that stand inside it. */
  insideIds: readonly string[]
  who?: string | null
}): Promise<Result<PlaceSplit, SplitPlaceRefused>> {
  requireWhole()
  return write<PlaceSplit, SplitPlaceRefused>(async (open) => {
    const { tx, at, touch } = open
    const { id, version, who = null } = input
    if (input.things.length + input.insideIds.length === 0) return refused({ kind: 'nothing-chosen' })
    const from = (await tx.place.findFirst({ where: { id, version, goneAt: null }, select: placeColumns })) as Place | null
    if (!from) return refused({ kind: 'changed-meanwhile' })
    if (from.kind === 'not found') return refused({ kind: 'kept-by-record' })
    const labelKey = textKey(input.place.label)
    const namesake = await tx.place.findUnique({ where: { labelKey }, select: { id: true, goneAt: true } })
    if (namesake && namesake.goneAt === null)
      return refused({ kind: 'label-taken', label: input.place.label, placeId: namesake.id })

    const living = new Map(
      (await readHousedIn(tx, id)).filter(({ homePlaceId }) => homePlaceId === id).map((thing) => [thingKey(thing), thing]),
    )
    const chosen = new Map(input.things.map((thing) => [thingKey(thing), thing]))
    const moving = [...chosen.keys()].flatMap((key) => living.get(key) ?? [])
    const inside = (await tx.place.findMany({ where: { parentId: id, goneAt: null }, select: { id: true, path: true } })).filter(
      (place) => input.insideIds.includes(place.id),
    )
    const missing = chosen.size - moving.length + new Set(input.insideIds).size - inside.length
    if (missing > 0) return refused({ kind: 'not-from-here', count: missing })
    if (moving.some((thing) => thing.version !== chosen.get(thingKey(thing))?.version))
      return refused({ kind: 'changed-meanwhile' })

    if (namesake) await retireLabel(tx, labelKey)
    const parentId = input.way === 'inside' ? id : from.parentId
    const parent = input.way === 'inside' ? from : await parentOf()
    const newPlaceId = newId()
    const added = { id: newPlaceId, path: pathUnder(parent, newPlaceId) }
    await tx.place.create({ data: { ...input.place, ...added, labelKey, parentId, walkOrder: null } })
    touch('place', newPlaceId)
    const what = `Part of ${from.label} split off as ${input.place.label}`
    const things = await rehouseThings(
      open,
      moving.map((thing) => ({ thing, after: rehoused(thing, id, newPlaceId), fromPlaceId: id, toPlaceId: newPlaceId })),
      { reason: what, who },
    )
    for (const place of inside) await moveBranch(open, place, added)
    await tx.place.update({ where: { id }, data: { version: { increment: 1 } } })
    touch('place', id)
    const formerLabelId = await rememberLabel(open, { label: from.label, placeId: newPlaceId, why: 'split' })

    const changeId = newId()
    const kept: KeptPlaceChange = {
      places: {
        ...{ kind: 'split', fromId: id, fromLabel: from.label, intoId: newPlaceId, intoLabel: input.place.label },
        formerLabelId,
      },
      things: moving.map(({ noun, id: thingId, homePlaceId, currentPlaceId }, index) => ({
        noun,
        id: thingId,
        before: { homePlaceId, currentPlaceId },
        versionAfter: things[index]?.version as number,
      })),
      insideIds: inside.map((place) => place.id),
      ...{ projectIds: [], loanIds: [], walkIds: [], walkLineIds: [], missingIds: [], formerLabelIds: [], room: null },
    }
    await tx.bulkEdit.create({ data: { id: changeId, at, who, what, stepsJson: JSON.stringify(kept) } })
    return ok({ changeId, newPlaceId, things: things.length, inside: inside.length })

    async function parentOf(): Promise<{ path: string } | null> {
      return parentId === null ? null : tx.place.findUnique({ where: { id: parentId }, select: { path: true } })
    }
  }, 180_000)
}
