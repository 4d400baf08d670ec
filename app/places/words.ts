import type { ReturnClothRefusal } from '#lib/db/cloth/move-cloth'
import type { PutBackNotionRefused } from '#lib/db/notion/put-back-notion'
import type { ThreadHere } from '#lib/db/place/contents'
import type { PlaceCounts } from '#lib/db/place/place-counts'
import type { PlaceRefusal } from '#lib/db/place/place-refusal'
import type { ReturnChartRefusal } from '#lib/db/place/return-chart'
import type { ReturnRefused } from '#lib/db/stock/return-batch'
import { isPeople, type PlaceKind } from '#lib/place/place'
import { counted, listed } from '#words/amounts'

/** What there is, in words; empty when there is nothing. */
const present = (words: readonly (string | false)[]): string[] => words.filter((word) => word !== false)

export function describePlaceRefusal(refusal: PlaceRefusal): string {
  switch (refusal.kind) {
    case 'label-taken':
      return `There is a place labelled ${refusal.label} already. Two places with one label would send somebody to the wrong drawer.`
    case 'no-such-place':
      return 'The place it was to stand in is not there any more. Choose another.'
    case 'inside-itself':
      return 'A place cannot be put inside itself, nor inside something it holds.'
    case 'already-there':
      return 'It stands there already.'
    case 'changed-meanwhile':
      return 'Somebody changed this place meanwhile. Look at it again, then make your change.'
    case 'not-empty': {
      const held = present([
        refusal.places > 0 && counted(refusal.places, 'place'),
        refusal.threads > 0 && `${counted(refusal.threads, 'lot')} of thread`,
        refusal.cloth > 0 && `${counted(refusal.cloth, 'piece')} of cloth`,
        refusal.charts > 0 && counted(refusal.charts, 'chart'),
        refusal.notions > 0 && counted(refusal.notions, 'notion'),
        refusal.projects > 0 && counted(refusal.projects, 'project'),
      ])
      return `It is not empty. In it or living there, of all owners together: ${listed(held)}. Find them another place first.`
    }
  }
}

export type PutBackRefusal = ReturnRefused | ReturnClothRefusal | ReturnChartRefusal | PutBackNotionRefused

export function describePutBackRefusal(refusal: PutBackRefusal): string {
  switch (refusal.kind) {
    case 'not-out':
    case 'already-there':
      return 'It is back in its place already.'
    case 'no-home':
      return 'It has no place of its own yet. Give it one first.'
    case 'not-equal':
      return 'What lies in its place is another lot, so the two were not put together. Look at it again.'
    case 'changed-meanwhile':
      return 'Somebody moved or changed it meanwhile. Look at it again.'
    case 'no-such-batch':
      return 'It is not there any more.'
  }
}

const kindWords: Record<PlaceKind, string> = {
  room: 'Room',
  cabinet: 'Cabinet',
  drawer: 'Drawer',
  compartment: 'Compartment',
  rack: 'Rack',
  shelf: 'Shelf',
  box: 'Box',
  bag: 'Bag',
  ring: 'Ring',
  bin: 'Bin',
  folder: 'Folder',
  person: 'Person',
  framer: 'Framer',
  finisher: 'Finisher',
  'model stitcher': 'Model stitcher',
  'not found': 'Not found',
}
export const kindWord = (kind: PlaceKind): string => kindWords[kind]

/** A place as its page is headed: Drawer T2.1; a label that says its kind itself stands alone, and so does a person's name. */
export function placeTitle({ kind, label }: { kind: PlaceKind; label: string }): string {
  const isSaid = label.toLowerCase().includes(kind) || kind === 'room' || kind === 'not found' || isPeople(kind)
  return isSaid ? label : `${kindWords[kind]} ${label}`
}

/** What lies in a place: 40 threads, 2 pieces of cloth. */
export function describeHolding(counts: PlaceCounts): string {
  const held = present([
    counts.threads > 0 && counted(counts.threads, 'thread'),
    counts.cloth > 0 && `${counted(counts.cloth, 'piece')} of cloth`,
    counts.charts > 0 && counted(counts.charts, 'chart'),
    counts.notions > 0 && counted(counts.notions, 'notion'),
    counts.projects > 0 && counted(counts.projects, 'project'),
  ])
  return listed(held)
}

/** The same on a drawer front, in few words. */
export function describeFront(counts: PlaceCounts): string {
  const held = describeHolding(counts) || 'empty'
  return counts.out > 0 ? `${held}, ${counts.out} out` : held
}

type Amount = Pick<ThreadHere, 'wholePutUps' | 'partCertainty'>

/** On the plan of a drawer: × 6, 2 + part. */
export function describeAmountBriefly(batches: readonly Amount[]): string {
  const whole = batches.reduce((sum, batch) => sum + batch.wholePutUps, 0)
  const hasPart = batches.some((batch) => batch.partCertainty !== 'none')
  if (!hasPart) return `× ${whole}`
  return whole === 0 ? 'part' : `${whole} + part`
}

/** How long ago, in whole days: today, 1 day, 12 days. */
export function describeDays(from: Date, to: Date): string {
  const days = Math.max(0, Math.floor((to.getTime() - from.getTime()) / (24 * 60 * 60 * 1000)))
  return days === 0 ? 'today' : counted(days, 'day')
}
