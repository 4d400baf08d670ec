import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { database, type Transaction } from '../client'
import { type PlaceRecord, type PlaceTag, placeColumns, placeTagColumns } from './place-rows'

export const whyFormer = ['renamed', 'merged', 'split'] as const

/** What a label said before, and where that is now. */
export type OldLabel = {
  label: string
  /** Its place got another label; it went into another place; or part of what lived there has a place of its own. */
  why: (typeof whyFormer)[number]
  until: Date
  place: PlaceTag
}

export type LabelLookUp = {
  /** The place that has this label on it now. */
  place: PlaceRecord | null
  /** What it said before, the latest first; without what was taken off the map since. */
  former: OldLabel[]
}

type Reader = Pick<Transaction, 'place' | 'formerLabel'>

/** Everything a label says and said, however it is spelt. */
export async function lookUpLabel(label: string, tx: Reader = database().prisma): Promise<LabelLookUp> {
  const labelKey = textKey(label)
  const place = (await tx.place.findFirst({ where: { labelKey, goneAt: null }, select: placeColumns })) as PlaceRecord | null
  const former = (await tx.formerLabel.findMany({
    where: { labelKey, place: { goneAt: null }, ...(place && { NOT: { placeId: place.id } }) },
    select: { label: true, why: true, until: true, place: placeTagColumns },
    orderBy: [{ until: 'desc' }, { id: 'desc' }],
  })) as OldLabel[]
  return { place, former }
}

/**
 * The place a label means now: the one that has it on it, else the one its former place became. `old` is the label that led there, to be
 * said to whoever typed it.
 */
export async function findMeant(
  label: string,
  tx: Reader = database().prisma,
): Promise<{ id: string; label: string; kind: string; old: OldLabel | null } | null> {
  const { place, former } = await lookUpLabel(label, tx)
  if (place) return { id: place.id, label: place.label, kind: place.kind, old: null }
  const old = former.find(({ why }) => why !== 'split') ?? former[0]
  return old ? { id: old.place.id, label: old.place.label, kind: old.place.kind, old } : null
}

/** The labels a place had before, and those of the places that went into it, the latest first. */
export async function listFormerLabels(placeId: string): Promise<Omit<OldLabel, 'place'>[]> {
  const rows = await database().prisma.formerLabel.findMany({
    where: { placeId },
    select: { label: true, why: true, until: true },
    orderBy: [{ until: 'desc' }, { id: 'desc' }],
  })
  return rows as Omit<OldLabel, 'place'>[]
}

/** The places that were split off one, by the label it had: where part of what lived here went. */
export async function listSplitOff(label: string, placeId: string): Promise<OldLabel[]> {
  const { former } = await lookUpLabel(label)
  return former.filter(({ why, place }) => why === 'split' && place.id !== placeId)
}

/** Where a place went that is on the map no more: for an old label's code, which leads to it. Null when it went nowhere. */
export async function findBecome(placeId: string): Promise<{ id: string; oldLabel: string } | null> {
  const gone = await database().prisma.place.findFirst({ where: { id: placeId, goneAt: { not: null } }, select: { label: true } })
  if (!gone) return null
  const { former } = await lookUpLabel(gone.label)
  const become = former.find(({ why }) => why === 'merged')
  return become ? { id: become.place.id, oldLabel: gone.label } : null
}
