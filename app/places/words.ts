import { listText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { ReturnClothRefusal } from '#lib/db/cloth/move-cloth'
import type { PutBackNotionRefused } from '#lib/db/notion/put-back-notion'
import type { ThreadHere } from '#lib/db/place/contents'
import type { KeptPlaceChange } from '#lib/db/place/place-change'
import type { PlaceCounts } from '#lib/db/place/place-counts'
import type { PlaceRefusal } from '#lib/db/place/place-refusal'
import type { ReturnChartRefusal } from '#lib/db/place/return-chart'
import type { ReturnRefused } from '#lib/db/stock/return-batch'
import type { PlaceFill } from '#lib/place/capacity'
import { isPeople, type PlaceKind } from '#lib/place/place'
import { counted, listed } from '#words/amounts'

/** What there is, in words; empty when there is nothing. */
const present = (words: readonly (string | false)[]): string[] => words.filter((word) => word !== false)

export function describePlaceRefusal(refusal: PlaceRefusal): string {
  switch (refusal.kind) {
    case 'label-taken':
      return say(
        'There is a place labelled {label} already. Two places with one label would send somebody to the wrong drawer.',
        { label: refusal.label },
      )
    case 'no-such-place':
      return say('The place it was to stand in is not there any more. Choose another.')
    case 'inside-itself':
      return say('A place cannot be put inside itself, nor inside something it holds.')
    case 'already-there':
      return say('It stands there already.')
    case 'changed-meanwhile':
      return say('Somebody changed this place meanwhile. Look at it again, then make your change.')
    case 'not-empty': {
      const held = present([
        refusal.places > 0 && counted(refusal.places, 'place'),
        refusal.threads > 0 && say('{threads, plural, one {# lot} other {# lots}} of thread', { threads: refusal.threads }),
        refusal.cloth > 0 && say('{cloth, plural, one {# piece} other {# pieces}} of cloth', { cloth: refusal.cloth }),
        refusal.charts > 0 && counted(refusal.charts, 'chart'),
        refusal.notions > 0 && counted(refusal.notions, 'notion'),
        refusal.projects > 0 && counted(refusal.projects, 'project'),
      ])
      return say('It is not empty. In it or living there, of all owners together: {held}. Find them another place first.', {
        held: listed(held),
      })
    }
    case 'same-place':
      return say('That is the place itself. Choose another for it to go into.')
    case 'person-and-place':
      return say('One of the two is a person and the other is not. Take the goods back first, then remove the place.')
    case 'kept-by-record':
      return say('The record keeps this place for what was not found. It stays as it is.')
    case 'being-counted':
      return say('A count of {label} is open. Finish it or drop it first, or its sheet would point at a place that is gone.', {
        label: refusal.label,
      })
    case 'nothing-chosen':
      return say('Nothing was chosen. Tick what goes to the new place.')
    case 'not-from-here':
      return say(
        '{count, plural, one {# thing} other {# things}} chosen {count, plural, one {does} other {do}} not live here any more. The page now shows what does; choose again.',
        { count: refusal.count },
      )
    case 'no-such-change':
      return say('There is no such change of places.')
    case 'already-undone':
      return say('It was taken back already.')
  }
}

export type PutBackRefusal = ReturnRefused | ReturnClothRefusal | ReturnChartRefusal | PutBackNotionRefused

export function describePutBackRefusal(refusal: PutBackRefusal): string {
  switch (refusal.kind) {
    case 'not-out':
    case 'already-there':
      return say('It is back in its place already.')
    case 'no-home':
      return say('It has no place of its own yet. Give it one first.')
    case 'not-equal':
      return say('What lies in its place is another lot, so the two were not put together. Look at it again.')
    case 'changed-meanwhile':
      return say('Somebody moved or changed it meanwhile. Look at it again.')
    case 'no-such-batch':
      return say('It is not there any more.')
  }
}

const kindWords: Record<PlaceKind, string> = sayings({
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
})
export const kindWord = (kind: PlaceKind): string => kindWords[kind]

/** A place as its page is headed: Drawer T2.1; a label that says its kind itself stands alone, and so does a person's name. */
export function placeTitle({ kind, label }: { kind: PlaceKind; label: string }): string {
  const says = (word: string) => label.toLowerCase().includes(word.toLowerCase())
  const isSaid = says(kind) || says(kindWords[kind]) || kind === 'room' || kind === 'not found' || isPeople(kind)
  return isSaid ? label : `${kindWords[kind]} ${label}`
}

/** What lies in a place: 40 threads, 2 pieces of cloth. */
export function describeHolding(counts: PlaceCounts): string {
  const held = present([
    counts.threads > 0 && counted(counts.threads, 'thread'),
    counts.cloth > 0 && say('{cloth, plural, one {# piece} other {# pieces}} of cloth', { cloth: counts.cloth }),
    counts.charts > 0 && counted(counts.charts, 'chart'),
    counts.notions > 0 && counted(counts.notions, 'notion'),
    counts.projects > 0 && counted(counts.projects, 'project'),
  ])
  return listed(held)
}

/** The same on a drawer front, in few words. */
export function describeFront(counts: PlaceCounts): string {
  const held = describeHolding(counts) || say('empty')
  return counts.out > 0 ? say('{held}, {out} out', { held, out: counts.out }) : held
}

type Amount = Pick<ThreadHere, 'wholePutUps' | 'partCertainty'>

/** On the plan of a drawer: × 6, 2 + part. */
export function describeAmountBriefly(batches: readonly Amount[]): string {
  const whole = batches.reduce((sum, batch) => sum + batch.wholePutUps, 0)
  const hasPart = batches.some((batch) => batch.partCertainty !== 'none')
  if (!hasPart) return `× ${whole}`
  return whole === 0 ? say('part') : say('{whole} + part', { whole })
}

/** How long ago, in whole days: today, 1 day, 12 days. */
export function describeDays(from: Date, to: Date): string {
  const days = Math.max(0, Math.floor((to.getTime() - from.getTime()) / (24 * 60 * 60 * 1000)))
  return days === 0 ? say('today') : counted(days, 'day')
}

type Change = Pick<KeptPlaceChange, 'places' | 'things' | 'insideIds' | 'projectIds' | 'loanIds' | 'room'>

/** What a merge or a split took along, for a strip of facts. */
export function describeWentAlong({ things, insideIds, projectIds, loanIds, room }: Change) {
  return [
    { label: say('Goods'), value: counted(things.length, 'thing') },
    { label: say('Places inside'), value: String(insideIds.length) },
    ...(projectIds.length > 0 ? [{ label: say('Kits'), value: String(projectIds.length) }] : []),
    ...(loanIds.length > 0 ? [{ label: say('Loans'), value: String(loanIds.length) }] : []),
    ...(room ? [{ label: say('Its room'), value: say('added to the other’s') }] : []),
  ]
}

/** What could not be taken back, for it was changed since; empty when all was. */
export function describeLeftThere(left: NonNullable<KeptPlaceChange['left']>, places: KeptPlaceChange['places']): string {
  const kept = present([
    left.things > 0 && counted(left.things, 'thing'),
    left.places > 0 && say('{places, plural, one {# place} other {# places}} inside', { places: left.places }),
  ])
  const sentences = present([
    kept.length > 0 && say('Left alone, for they were changed since: {kept}.', { kept: listed(kept) }),
    left.room && say('What {intoLabel} takes was said anew since, and stays as it was said.', { intoLabel: places.intoLabel }),
    left.newPlace && say('{intoLabel} stays, for something lies in it.', { intoLabel: places.intoLabel }),
  ])
  return sentences.join(' ')
}

/** A share of the whole: three-quarters, half, or 80 %. */
export const shareWords = (percent: number): string =>
  percent === 75 ? say('three-quarters full') : percent === 50 ? say('half full') : say('{percent} % full', { percent })

const sortWords: Record<Extract<PlaceFill, { by: 'things' }>['sort'], string> = sayings({
  threads: 'threads',
  pieces: 'pieces',
  charts: 'charts',
  notions: 'notions',
  things: 'things',
})

/** What a place's fill is made of: 5 of 6 skeins, 2 of 12 cards. */
export function describeFillDetail(fill: PlaceFill): string {
  const away = (out: number) => out > 0 && say('{out} of them out, their room kept', { out })
  switch (fill.by) {
    case 'put-ups': {
      const held = fill.byWord
        .filter(({ count }) => count > 0)
        .map(({ count, most, putUpWord }) => say('{count} of {counted}', { count, counted: counted(most, putUpWord) }))
      const room = fill.byWord.map(({ most, putUpWord }) => counted(most, putUpWord))
      const unknown = fill.unknown.map(({ count, putUpWord }) => counted(count, putUpWord))
      return present([
        held.length > 0 ? listed(held) : say('empty; takes {room}', { room: listText(room, 'disjunction') }),
        unknown.length > 0 && say('and {unknown}, of which it is not said how many it takes', { unknown: listed(unknown) }),
      ]).join(', ')
    }
    case 'compartments-room':
      return fill.unsaid > 0
        ? say(
            'by {compartments} of its {compartments2, plural, one {# compartment} other {# compartments}}; {unsaid} do not say what they take',
            { compartments: fill.compartments - fill.unsaid, compartments2: fill.compartments, unsaid: fill.unsaid },
          )
        : say('by its {compartments, plural, one {# compartment} other {# compartments}}', { compartments: fill.compartments })
    case 'compartments':
      return present([
        say('{here} of {capacity, plural, one {# compartment} other {# compartments}}', {
          here: fill.here + fill.out,
          capacity: fill.capacity,
        }),
        away(fill.out),
      ]).join(', ')
    case 'things':
      return present([
        say('{here} of {capacity} {sort}', { here: fill.here + fill.out, capacity: fill.capacity, sort: sortWords[fill.sort] }),
        away(fill.out),
      ]).join(', ')
  }
}
