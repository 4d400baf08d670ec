import { givenPlaceKinds, type PlaceKind } from '#lib/place/place'
import type { PlaceDraft } from './drafts'
import type { RowReader } from './row-reader'

const alsoMeans: Record<string, PlaceKind> = {
  'thread drawer': 'drawer',
  schublade: 'drawer',
  tiroir: 'drawer',
  cupboard: 'cabinet',
  chest: 'cabinet',
  'chest of drawers': 'cabinet',
  column: 'cabinet',
  schrank: 'cabinet',
  armoire: 'cabinet',
  slot: 'compartment',
  section: 'compartment',
  fach: 'compartment',
  raum: 'room',
  zimmer: 'room',
  piece: 'room',
  studio: 'room',
  kiste: 'box',
  schachtel: 'box',
  boite: 'box',
  carton: 'box',
  tin: 'box',
  basket: 'bin',
  tub: 'bin',
  korb: 'bin',
  beutel: 'bag',
  tasche: 'bag',
  sac: 'bag',
  pouch: 'bag',
  'project bag': 'bag',
  regal: 'rack',
  etagere: 'shelf',
  bookshelf: 'shelf',
  binder: 'folder',
  ordner: 'folder',
  mappe: 'folder',
  classeur: 'folder',
  file: 'folder',
  anneau: 'ring',
  friend: 'person',
  stitcher: 'person',
}

export function checkPlace(row: RowReader): PlaceDraft {
  return {
    label: row.required('label'),
    kind: row.word('kind', givenPlaceKinds, alsoMeans),
    inside: row.text('inside'),
    name: row.text('name'),
    walkOrder: row.whole('walkOrder'),
    capacity: row.whole('capacity'),
    note: row.note(),
  }
}
