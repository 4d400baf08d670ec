import { nearCover, sameCover, wordsDistance } from './cover-hash'
import { formKeys, likenessOf, pairsSharing, type TitleForm } from './likeness'

/** A chart as the search for doubles sees it. */
export type ComparedChart = {
  id: string
  ownerId: string
  isFile: boolean
  /** Its title first, then the others it goes by. */
  titles: readonly TitleForm[]
  designerIds: readonly string[]
  /** Of its designs with a size in stitches: "98×140", the shorter side first, in order. */
  sizes: readonly string[]
  designCount: number
  /** Every thread its lists name, as numbers in ascending order. */
  threads: Uint32Array
  /** Its cover as two words of 32 bits. */
  cover: readonly [number, number] | null
  fileHashes: readonly string[]
  edition: string | null
}

export type DoubleReason =
  | { kind: 'same-file' }
  | { kind: 'same-title' }
  | { kind: 'near-title' }
  | { kind: 'title-in-title' }
  | { kind: 'same-designer' }
  | { kind: 'same-size'; size: string }
  /** So many threads of all those either names are named by both. */
  | { kind: 'same-threads'; shared: number; of: number }
  /** In how many of 64 bits the covers differ. */
  | { kind: 'same-cover'; bits: number }

/** What speaks against it, to be looked at before they are merged. */
export type DoubleDoubt = 'other-size' | 'other-designer' | 'other-edition' | 'other-threads'

export type SuggestedDouble = {
  /** The one with the lesser id first. */
  firstId: string
  secondId: string
  reasons: DoubleReason[]
  doubts: DoubleDoubt[]
  /** More is surer; for the order alone. */
  weight: number
}

/** A key shared by more charts than this says nothing: a common word, a great designer. */
const mostSharing = 60
/** Shorter palettes are alike by chance. */
const fewestThreads = 4
/** Two palettes with this share in common are one list spelt out twice; with less than the other, two lists. */
const alikePalette = 0.7
const otherPalette = 0.3
/** Two rows of each band must agree for charts to be held against each other: of palettes 7 in 10 alike, 98 in 100 are found. */
const bands = 6

/** What each kind of evidence weighs, and what all of it must come to: chosen by trial on hand-made cases (tests/unit/chart/doubles-suggested). */
const weights = {
  'same-file': 10,
  'same-title': 4,
  'near-title': 3,
  'title-in-title': 2,
  'same-designer': 2,
  'same-size': 2,
} as const
const doubtWeights = { 'other-size': 2, 'other-designer': 3, 'other-edition': 0, 'other-threads': 0 } as const
const enough = 5

function mixed(value: number, seed: number): number {
  let hash = Math.imul(value ^ seed, 0x9e37_79b1)
  hash = Math.imul(hash ^ (hash >>> 15), 0x85eb_ca77)
  return (hash ^ (hash >>> 13)) >>> 0
}

/** Keys that palettes alike are likely to share (minwise hashing: A. Broder, On the resemblance and containment of documents, 1997). */
function* paletteKeys({ threads }: ComparedChart): Generator<string, void, void> {
  if (threads.length < fewestThreads) return
  for (let band = 0; band < bands; band++) {
    const least = [0xffff_ffff, 0xffff_ffff]
    for (const thread of threads)
      for (let row = 0; row < 2; row++) least[row] = Math.min(least[row] as number, mixed(thread, 7_919 * (band * 2 + row + 1)))
    yield `threads ${band} ${least[0]} ${least[1]}`
  }
}

function* keysOf(chart: ComparedChart): Generator<string, void, void> {
  const { ownerId, designerIds, sizes, fileHashes } = chart
  // What belongs to two owners is not one thing entered twice.
  const own = function* (keys: Iterable<string>) {
    for (const key of keys) yield `${ownerId} ${key}`
  }
  for (const title of chart.titles) {
    yield* own(formKeys('title', title))
    const whole = title.words.join('')
    for (const id of designerIds) yield `${ownerId} designer ${id} title ${whole.slice(0, 2)}`
  }
  for (const size of sizes) {
    yield `${ownerId} size ${size}`
    for (const id of designerIds) yield `${ownerId} designer ${id} size ${size}`
  }
  yield* own(paletteKeys(chart))
  for (const hash of fileHashes) yield `${ownerId} file ${hash}`
}

/** A part of so many covers at once says nothing: blank ones, a publisher's frame. */
const mostCovers = 400

/**
 * Pairs whose covers are near. Two that differ in fewer than eight bits have one of their eight bytes in common, and most of those that differ
 * in some more; only such are held against each other, which is two exclusive ors and a count of bits.
 */
function* coverPairs(charts: readonly ComparedChart[]): Generator<readonly [number, number], void, void> {
  const sharing = new Map<number, number[]>()
  for (const [at, { cover }] of charts.entries()) {
    if (cover === null) continue
    for (let chunk = 0; chunk < 8; chunk++) {
      const key = chunk * 256 + (((cover[chunk >> 2] as number) >>> (8 * (chunk & 3))) & 0xff)
      const known = sharing.get(key)
      if (known) known.push(at)
      else sharing.set(key, [at])
    }
  }
  for (const some of sharing.values()) {
    if (some.length > mostCovers) continue
    for (let i = 1; i < some.length; i++) {
      const mine = charts[some[i] as number]?.cover as readonly [number, number]
      for (let j = 0; j < i; j++) {
        const bits = wordsDistance(mine, charts[some[j] as number]?.cover as readonly [number, number])
        if (bits <= nearCover) yield [some[j] as number, some[i] as number]
      }
    }
  }
}

/** How many numbers two ascending lists share. */
export function sharedCount(a: Uint32Array, b: Uint32Array): number {
  let [i, j, shared] = [0, 0, 0]
  while (i < a.length && j < b.length) {
    const [left, right] = [a[i] as number, b[j] as number]
    if (left === right) shared++
    if (left <= right) i++
    if (right <= left) j++
  }
  return shared
}

const likenessOrder = ['far', 'part', 'near', 'same'] as const

/** What speaks for two charts being one, and against it. */
export function compareCharts(a: ComparedChart, b: ComparedChart): Pick<SuggestedDouble, 'reasons' | 'doubts' | 'weight'> {
  const reasons: DoubleReason[] = []
  const doubts: DoubleDoubt[] = []
  let weight = 0
  const say = (kind: keyof typeof weights) => {
    reasons.push(kind === 'same-size' ? { kind, size: a.sizes.join(', ') } : { kind })
    weight += weights[kind]
  }
  if (a.fileHashes.some((hash) => b.fileHashes.includes(hash))) say('same-file')
  let alike = 0
  for (const left of a.titles)
    for (const right of b.titles) alike = Math.max(alike, likenessOrder.indexOf(likenessOf(left, right)))
  if (alike > 0) say((['title-in-title', 'near-title', 'same-title'] as const)[alike - 1] as 'same-title')
  const shared = a.designerIds.some((id) => b.designerIds.includes(id))
  if (shared) say('same-designer')
  else if (a.designerIds.length > 0 && b.designerIds.length > 0) doubts.push('other-designer')
  if (a.sizes.length > 0 && b.sizes.length > 0) {
    if (a.sizes.join() === b.sizes.join()) say('same-size')
    else if (a.designCount === b.designCount && a.sizes.length === a.designCount && b.sizes.length === b.designCount)
      doubts.push('other-size')
  }
  if (a.threads.length >= fewestThreads && b.threads.length >= fewestThreads) {
    const both = sharedCount(a.threads, b.threads)
    const all = a.threads.length + b.threads.length - both
    if (both / all >= alikePalette) {
      reasons.push({ kind: 'same-threads', shared: both, of: all })
      weight += both / all >= 0.9 ? 3 : 2
    } else if (both / all < otherPalette) doubts.push('other-threads')
  }
  if (a.cover && b.cover) {
    const bits = wordsDistance(a.cover, b.cover)
    if (bits <= nearCover) {
      reasons.push({ kind: 'same-cover', bits })
      weight += bits <= sameCover ? 5 : 3
    }
  }
  if (a.edition !== null && b.edition !== null && a.edition !== b.edition) doubts.push('other-edition')
  for (const doubt of doubts) weight -= doubtWeights[doubt]
  return { reasons, doubts, weight }
}

/** Names a pair whichever way round it is given. */
export const pairKey = (a: string, b: string): string => (a < b ? `${a} ${b}` : `${b} ${a}`)

/**
 * Charts of one owner that may be one chart entered twice: under another title, with another cover. A file and a paper one are two things.
 * Only charts that share a key (a telling word, designer and size, part of a palette, of a cover) are held against each other, so the time goes
 * with the number of charts: 20,000 take about a second.
 *
 * @param toldApart  by `pairKey`: pairs somebody said are not the same
 * @returns  the surest first; ties by id
 */
export function suggestDoubles(charts: readonly ComparedChart[], toldApart: ReadonlySet<string>): SuggestedDouble[] {
  const found: SuggestedDouble[] = []
  const seen = new Set<string>()
  const byKeys = pairsSharing(
    charts.map((chart) => [...keysOf(chart)]),
    mostSharing,
  )
  const look = (left: number, right: number) => {
    const [a, b] = [charts[left] as ComparedChart, charts[right] as ComparedChart]
    if (a.ownerId !== b.ownerId || a.isFile !== b.isFile) return
    const compared = compareCharts(a, b)
    const key = pairKey(a.id, b.id)
    if (compared.weight < enough || toldApart.has(key) || seen.has(key)) return
    seen.add(key)
    const [firstId, secondId] = a.id < b.id ? [a.id, b.id] : [b.id, a.id]
    found.push({ firstId, secondId, ...compared })
  }
  for (const [left, right] of byKeys) look(left, right)
  for (const [left, right] of coverPairs(charts)) look(left, right)
  return found.sort((a, b) => b.weight - a.weight || (pairKey(a.firstId, a.secondId) < pairKey(b.firstId, b.secondId) ? -1 : 1))
}
