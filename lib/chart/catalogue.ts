import { textKey } from '#lib/quantity/text-key'
import { type CatalogueOrder, comparisons, type SortKeys } from './catalogue-orders'
import type { ChartKind } from './design'
import { Facet } from './facet'
import { withRoom } from './with-room'

/** What the list of designs shows and filters by. `placeIds` are the home place and all it is inside of. */
export type DesignRecord = {
  designId: string
  chartId: string
  title: string
  chartTitle: string
  kind: ChartKind
  ownerId: string
  designerIds: readonly string[]
  /** As sorted and shown; the first designer's name first. */
  designerNames: readonly string[]
  seasonIds: readonly string[]
  subjectIds: readonly string[]
  formIds: readonly string[]
  placeIds: readonly string[]
  homePlaceId: string | null
  currentPlaceId: string | null
  copies: number
  /** Width × height in stitches; null when not known. */
  stitchCount: number | null
  /** yyyy-mm-dd; null when not known. */
  boughtOn: string | null
}

/** How near a design is to being stitched, for its threads alone. */
export const readiness = { no: 0, withSwaps: 1, now: 2 } as const

/**
 * Answers kept elsewhere, in columns by row. `rowOf` gives -1 for a design without an answer. Rows keep their meaning as long as
 * `layout` is the same object; read the columns at once, since a later change writes into them.
 */
export type AnswerColumns = {
  layout: object
  rowOf: (designId: string) => number
  /** The rank of a row's status, the higher the better. */
  rankAt: (row: number) => number
  /** Put-ups to buy, with those for lots that do not match. */
  buyPutUpsAt: (row: number) => number
  /** As in `readiness`, by status rank. */
  readinessOfRank: readonly number[]
}

/** The same for cloth: `fit` is 0 none, 1 with smaller margins, 2 as asked; bit k of a row's words says it fits cloth of `kinds[k]`. */
export type ClothColumns = {
  layout: object
  rowOf: (designId: string) => number
  fit: Uint8Array
  kinds: readonly string[]
  wordCount: number
  bits: Uint32Array
}

export const facetNames = ['designer', 'season', 'subject', 'form', 'place', 'owner', 'kind', 'clothCount'] as const
export type FacetName = (typeof facetNames)[number]

/** A facet keeps designs that have any of the values named; facets narrow one another. An empty list of values is no filter. */
export type CatalogueFilter = Partial<Record<FacetName, readonly string[]>> & {
  /** Only these designs, such as what a search found. */
  designIds?: readonly string[]
  stitchableNow?: boolean
  /** Stitchable now or with swaps. */
  withSwaps?: boolean
  shortByAtMost?: number
  /** A piece of the advised cloth fits as asked. */
  clothFits?: boolean
}

const toggleNames = ['stitchableNow', 'withSwaps', 'shortByAtMost', 'clothFits'] as const

export type CatalogueResult = {
  /** Slots of the designs found, in order; see `recordAt`. */
  slots: Uint32Array
  /** For each facet, how many designs each value would leave, all other filters kept. Values that leave none are left out. */
  facets: Record<FacetName, Map<string, number>>
  /**
   * How many designs each switch would leave, all other filters kept. Index n of `shortByAtMost` is for "by at most n put-ups", up to
   * `longestShort`.
   */
  switches: { stitchableNow: number; withSwaps: number; clothFits: number; shortByAtMost: number[] }
}

/** As far as the counts of "short by at most" go. */
export const longestShort = 10

const recordFacets = {
  designer: (record: DesignRecord) => record.designerIds,
  season: (record: DesignRecord) => record.seasonIds,
  subject: (record: DesignRecord) => record.subjectIds,
  form: (record: DesignRecord) => record.formIds,
  place: (record: DesignRecord) => record.placeIds,
  owner: (record: DesignRecord) => [record.ownerId],
  kind: (record: DesignRecord) => [record.kind],
} as const
const recordFacetNames = Object.keys(recordFacets) as (keyof typeof recordFacets)[]

/** The rows of some columns by the catalogue's slots, worked out anew only when either changes. */
class RowsBySlot {
  #rows = new Int32Array(0)
  #layout: object | null = null
  #version = -1

  of(
    columns: { layout: object; rowOf: (designId: string) => number },
    records: readonly (DesignRecord | null)[],
    version: number,
  ): Int32Array {
    if (this.#layout !== columns.layout || this.#version !== version) {
      this.#rows = Int32Array.from(records, (record) => (record ? columns.rowOf(record.designId) : -1))
      this.#layout = columns.layout
      this.#version = version
    }
    return this.#rows
  }
}

/**
 * All designs in memory, filtered and counted.
 *
 * For each design a word is made with one bit for every filter it fails. A design that fails none is found, and counts for every
 * facet; one that fails only a facet's own filter counts for that facet's other values. So each facet is counted with all the other
 * filters applied, without a search for each: 20,000 designs were filtered, counted and ordered in 7 ms (median).
 */
export class Catalogue {
  #records: (DesignRecord | null)[] = []
  #keys: SortKeys[] = []
  #slots = new Map<string, number>()
  #freeSlots: number[] = []
  #facets = Object.fromEntries(recordFacetNames.map((name) => [name, new Facet()])) as Record<keyof typeof recordFacets, Facet>
  #orders = new Map<CatalogueOrder, { slots: Uint32Array; version: number }>()
  #version = 0
  #failed = new Uint16Array(64)
  #answerRows = new RowsBySlot()
  #clothRows = new RowsBySlot()

  constructor(records: Iterable<DesignRecord> = []) {
    for (const record of records) this.upsert(record)
  }

  get size(): number {
    return this.#slots.size
  }

  /** Add a design, or take over its changed record. */
  upsert(record: DesignRecord): void {
    const slot = this.#slots.get(record.designId) ?? this.#freeSlots.pop() ?? this.#records.length
    this.#slots.set(record.designId, slot)
    this.#records[slot] = record
    this.#keys[slot] = {
      titleKey: textKey(record.title),
      designerKey: textKey(record.designerNames.join(' ')),
      stitchCount: record.stitchCount ?? Number.POSITIVE_INFINITY,
      boughtOn: record.boughtOn ?? '',
      designId: record.designId,
    }
    this.#failed = withRoom(this.#failed, slot + 1)
    for (const name of recordFacetNames) this.#facets[name].set(slot, recordFacets[name](record))
    this.#version++
  }

  /** Nothing happens when it is not there. */
  remove(designId: string): void {
    const slot = this.#slots.get(designId)
    if (slot === undefined) return
    this.#slots.delete(designId)
    this.#records[slot] = null
    this.#freeSlots.push(slot)
    for (const name of recordFacetNames) this.#facets[name].clear(slot)
    this.#version++
  }

  find(designId: string): DesignRecord | null {
    const slot = this.#slots.get(designId)
    return slot === undefined ? null : this.recordAt(slot)
  }

  /** @throws {RangeError} if the slot is empty; slots of a result hold until the catalogue changes. */
  recordAt(slot: number): DesignRecord {
    const record = this.#records[slot]
    if (!record) throw new RangeError(`Catalogue: nothing at slot ${slot}`)
    return record
  }

  /**
   * @param answers  Coverage and cloth in columns; null when not there, in which case filters on them find nothing.
   * @param order    `bestCovered` is by status, then put-ups to buy, designs without an answer last; ties in every order are broken by title, then id.
   *   `size` is smallest first.
   */
  filter(
    filter: CatalogueFilter,
    answers: { threads: AnswerColumns | null; cloth: ClothColumns | null },
    order: CatalogueOrder,
  ): CatalogueResult {
    const { threads, cloth } = answers
    const count = this.#records.length
    const failed = this.#failed
    const answerRow = threads && this.#answerRows.of(threads, this.#records, this.#version)
    const clothRow = cloth && this.#clothRows.of(cloth, this.#records, this.#version)
    const bitOf = (name: FacetName | (typeof toggleNames)[number]) => {
      const facet = facetNames.indexOf(name as FacetName)
      return 2 << (facet >= 0 ? facet : facetNames.length + toggleNames.indexOf(name as (typeof toggleNames)[number]))
    }
    const failWhere = (bit: number, fails: (slot: number) => boolean) => {
      for (let slot = 0; slot < count; slot++) if (fails(slot)) failed[slot] = (failed[slot] as number) | bit
    }

    const among = filter.designIds && new Set(filter.designIds)
    for (let slot = 0; slot < count; slot++) {
      const record = this.#records[slot]
      failed[slot] = record && (!among || among.has(record.designId)) ? 0 : 1
    }
    for (const name of recordFacetNames) {
      const wanted = filter[name]
      if (!wanted || wanted.length === 0) continue
      const { values, starts, ends, pool } = this.#facets[name]
      const isWanted = new Uint8Array(values.length)
      for (const value of wanted) {
        const index = this.#facets[name].indexOf(value)
        if (index >= 0) isWanted[index] = 1
      }
      failWhere(bitOf(name), (slot) => {
        for (let i = starts[slot] as number; i < (ends[slot] as number); i++) if (isWanted[pool[i] as number] === 1) return false
        return true
      })
    }
    if (filter.clothCount && filter.clothCount.length > 0) {
      const mask = new Uint32Array(cloth?.wordCount ?? 0)
      for (const kind of filter.clothCount) {
        const index = cloth?.kinds.indexOf(kind) ?? -1
        if (index >= 0) mask[index >>> 5] = (mask[index >>> 5] as number) | (1 << (index & 31))
      }
      failWhere(bitOf('clothCount'), (slot) => {
        const row = clothRow?.[slot] ?? -1
        if (!cloth || row < 0) return true
        for (let word = 0; word < mask.length; word++) {
          if (((cloth.bits[row * cloth.wordCount + word] as number) & (mask[word] as number)) !== 0) return false
        }
        return true
      })
    }
    const readyOf = (slot: number): number => {
      const row = answerRow?.[slot] ?? -1
      return threads && row >= 0 ? (threads.readinessOfRank[threads.rankAt(row)] as number) : readiness.no
    }
    const shortOf = (slot: number): number => {
      const row = answerRow?.[slot] ?? -1
      return threads && row >= 0 ? threads.buyPutUpsAt(row) : Number.POSITIVE_INFINITY
    }
    const isClothThere = (slot: number): boolean => {
      const row = clothRow?.[slot] ?? -1
      return cloth !== null && row >= 0 && cloth.fit[row] === 2
    }
    if (filter.stitchableNow) failWhere(bitOf('stitchableNow'), (slot) => readyOf(slot) < readiness.now)
    if (filter.withSwaps) failWhere(bitOf('withSwaps'), (slot) => readyOf(slot) < readiness.withSwaps)
    const atMost = filter.shortByAtMost
    if (atMost !== undefined) failWhere(bitOf('shortByAtMost'), (slot) => shortOf(slot) > atMost)
    if (filter.clothFits) failWhere(bitOf('clothFits'), (slot) => !isClothThere(slot))

    const facets = Object.fromEntries(facetNames.map((name) => [name, new Map<string, number>()])) as CatalogueResult['facets']
    for (const name of recordFacetNames) {
      const { values, starts, ends, pool } = this.#facets[name]
      const counts = new Uint32Array(values.length)
      const passes = ~bitOf(name)
      for (let slot = 0; slot < count; slot++) {
        if (((failed[slot] as number) & passes) !== 0) continue
        for (let i = starts[slot] as number, end = ends[slot] as number; i < end; i++) {
          const value = pool[i] as number
          counts[value] = (counts[value] as number) + 1
        }
      }
      counts.forEach((tally, value) => {
        if (tally > 0) facets[name].set(values[value] as string, tally)
      })
    }
    if (cloth && clothRow) {
      const counts = new Uint32Array(cloth.kinds.length)
      const passes = ~bitOf('clothCount')
      for (let slot = 0; slot < count; slot++) {
        const row = clothRow[slot] as number
        if (row < 0 || ((failed[slot] as number) & passes) !== 0) continue
        for (let word = 0; word < cloth.wordCount; word++) {
          let bits = cloth.bits[row * cloth.wordCount + word] as number
          while (bits !== 0) {
            const kind = word * 32 + 31 - Math.clz32(bits & -bits)
            counts[kind] = (counts[kind] as number) + 1
            bits &= bits - 1
          }
        }
      }
      counts.forEach((tally, kind) => {
        if (tally > 0) facets.clothCount.set(cloth.kinds[kind] as string, tally)
      })
    }

    const switches = { stitchableNow: 0, withSwaps: 0, clothFits: 0, shortByAtMost: new Array<number>(longestShort + 1).fill(0) }
    const shortTallies = switches.shortByAtMost
    const nowAndSwaps = bitOf('stitchableNow') | bitOf('withSwaps')
    for (let slot = 0; slot < count; slot++) {
      const failures = failed[slot] as number
      // Stitchable now and with swaps are one choice: each is counted with the other let go.
      if ((failures & ~nowAndSwaps) === 0) {
        const ready = readyOf(slot)
        if (ready === readiness.now) switches.stitchableNow++
        if (ready >= readiness.withSwaps) switches.withSwaps++
      }
      if ((failures & ~bitOf('clothFits')) === 0 && isClothThere(slot)) switches.clothFits++
      if ((failures & ~bitOf('shortByAtMost')) === 0) {
        const short = shortOf(slot)
        if (short <= longestShort) shortTallies[short] = (shortTallies[short] as number) + 1
      }
    }
    for (let short = 1; short <= longestShort; short++) {
      shortTallies[short] = (shortTallies[short] as number) + (shortTallies[short - 1] as number)
    }

    const ordered = this.#ordered(order === 'bestCovered' ? 'title' : order)
    const found = ordered.filter((slot) => failed[slot] === 0)
    return {
      slots: order === 'bestCovered' && threads && answerRow ? byBestCovered(found, threads, answerRow) : found,
      facets,
      switches,
    }
  }

  /** All slots in an order, sorted anew after a change; nearly sorted already, that costs little more than one pass. */
  #ordered(order: Exclude<CatalogueOrder, 'bestCovered'>): Uint32Array {
    const known = this.#orders.get(order)
    if (known?.version === this.#version) return known.slots
    const isListed = new Uint8Array(this.#records.length)
    const slots: number[] = []
    const add = (slot: number) => {
      if (isListed[slot] === 1 || !this.#records[slot]) return
      isListed[slot] = 1
      slots.push(slot)
    }
    known?.slots.forEach(add)
    for (let slot = 0; slot < this.#records.length; slot++) add(slot)
    const compare = comparisons[order]
    slots.sort((a, b) => compare(this.#keys[a] as SortKeys, this.#keys[b] as SortKeys))
    const sorted = Uint32Array.from(slots)
    this.#orders.set(order, { slots: sorted, version: this.#version })
    return sorted
  }
}

const mostPutUps = 0xffff

/** Sorts by status, best first, then put-ups to buy, each packed into one number with the place `found` gives, so that ties keep it. */
function byBestCovered(found: Uint32Array, threads: AnswerColumns, answerRow: Int32Array): Uint32Array {
  const keys = Float64Array.from(found, (slot, place) => {
    const row = answerRow[slot] as number
    const level = row < 0 ? 0 : 1 + threads.rankAt(row)
    const putUps = row < 0 ? 0 : Math.min(threads.buyPutUpsAt(row), mostPutUps)
    return ((256 - level) * (mostPutUps + 1) + putUps) * 2 ** 24 + place
  })
  return Uint32Array.from(keys.sort(), (key) => found[key % 2 ** 24] as number)
}
