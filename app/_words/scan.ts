import { sayings } from '#language/say'
import type { ScannedThing } from '#lib/db/label/find-scanned'
import type { ScannedNoun } from '#lib/label/read-scanned'
import { pieceName } from './cloth'
import { threadTitle } from './thread'

export const scannedNounWords: Record<ScannedNoun, string> = sayings({
  place: 'Place',
  chart: 'Chart',
  thread: 'Thread',
  cloth: 'Piece of cloth',
  project: 'Project',
})

/** What a scanned thing is called. */
export function scannedTitle(thing: ScannedThing): string {
  switch (thing.noun) {
    case 'place':
      return [thing.place.label, thing.place.name].filter(Boolean).join(', ')
    case 'thread':
      return threadTitle(thing.thread)
    case 'cloth':
      return pieceName(thing)
    case 'chart':
    case 'project':
      return thing.title
  }
}
