import { textKey } from '#lib/quantity/text-key'
import { isCloseCode } from '#lib/thread/code-order'

export const deviceNouns = ['design', 'thread', 'cloth', 'notion', 'place', 'project'] as const
export type DeviceNoun = (typeof deviceNouns)[number]

/** A thing as a device without a connection knows it. */
export type DeviceThing = {
  noun: DeviceNoun
  id: string
  title: string
  note: string
  /** What is read off and typed whole: a thread's code, a label. */
  code: string
  /** Where it is now. */
  placeId: string | null
}

export type DevicePlace = { id: string; label: string; name: string }

/** Everything that can be found, as small as it goes: written in rows, places named once. */
export type DeviceIndex = {
  /** Id, label, name. */
  places: [string, string, string][]
  /** Turn in `deviceNouns`, id, title, note, code, turn in `places` or -1. */
  things: [number, string, string, string, string, number][]
  /** Things for which there was no room, all of them designs. */
  leftOut: number
}

/** Packed, 20,000 designs and 3,000 threads are 0.52 MB; a phone fetches it anew where something changed since it was last at a drawer. */
export const mostDeviceThings = 30_000

/** The index; where there is not room for all, designs are left out from the end of their titles, and whatever lies in a drawer stays. */
export function makeDeviceIndex(
  things: readonly DeviceThing[],
  places: readonly DevicePlace[],
  most: number = mostDeviceThings,
): DeviceIndex {
  const turns = new Map(places.map(({ id }, turn) => [id, turn]))
  const byTitle = (a: DeviceThing, b: DeviceThing) => (a.title < b.title ? -1 : a.title > b.title ? 1 : a.id < b.id ? -1 : 1)
  const others = things.filter(({ noun }) => noun !== 'design').sort(byTitle)
  const designs = things.filter(({ noun }) => noun === 'design').sort(byTitle)
  const room = Math.max(0, most - others.length)
  return {
    places: places.map(({ id, label, name }) => [id, label, name]),
    things: [...others, ...designs.slice(0, room)].map(({ noun, id, title, note, code, placeId }) => [
      deviceNouns.indexOf(noun),
      id,
      title,
      note,
      code,
      turns.get(placeId ?? '') ?? -1,
    ]),
    leftOut: Math.max(0, designs.length - room),
  }
}

export type DeviceHit = {
  noun: DeviceNoun
  id: string
  title: string
  note: string
  /** As `SearchHit` has them: met exactly, nearly so, or by its words. */
  match: 'exact' | 'close' | 'words'
  place: DevicePlace | null
}

const weight = { exact: 0, close: 1, words: 2 } as const
const wordsOf = (text: string): string[] =>
  textKey(text)
    .split(/[^\p{L}\p{N}.-]+/u)
    .filter(Boolean)

/**
 * What the words lead to, best first: a code or label met exactly, then near codes, then everything that has all the words, the last of
 * which may be only begun. Plainer than the search with a connection: a slip of the fingers finds nothing. O(things); about 0.1 s for 23,000.
 */
export function searchDevice(index: DeviceIndex, asked: string, limit: number): { hits: DeviceHit[]; found: number } {
  const text = asked.trim()
  const key = textKey(text)
  const words = wordsOf(text)
  if (words.length === 0) return { hits: [], found: 0 }
  const met: DeviceHit[] = []
  for (const [noun, id, title, note, code, turn] of index.things) {
    const match = matchOf({ text, key, words }, { title, note, code })
    if (match === null) continue
    const place = index.places[turn]
    met.push({
      noun: deviceNouns[noun] as DeviceNoun,
      ...{ id, title, note, match },
      place: place ? { id: place[0], label: place[1], name: place[2] } : null,
    })
  }
  // Sorting is stable, and things of a kind already stand by title.
  met.sort((a, b) => weight[a.match] - weight[b.match])
  return { hits: met.slice(0, limit), found: met.length }
}

function matchOf(
  asked: { text: string; key: string; words: readonly string[] },
  thing: { title: string; note: string; code: string },
): DeviceHit['match'] | null {
  // A code keeps its zeros: 17 is not 0017.
  if (thing.code !== '' && textKey(thing.code) === asked.key) return 'exact'
  if (thing.code !== '' && isCloseCode(asked.text, thing.code)) return 'close'
  const whole = textKey(`${thing.title} ${thing.note}`)
  // Most have none of them: parted into words only where that may come to something.
  if (!asked.words.every((word) => whole.includes(word))) return null
  const held = wordsOf(whole)
  const last = asked.words.length - 1
  return asked.words.every((word, turn) => held.some((one) => (turn === last ? one.startsWith(word) : one === word)))
    ? 'words'
    : null
}
