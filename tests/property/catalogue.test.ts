import fc from 'fast-check'
import { expect, it } from 'vitest'
import {
  type AnswerColumns,
  Catalogue,
  type CatalogueFilter,
  type ClothColumns,
  type DesignRecord,
  type FacetName,
  facetNames,
  longestShort,
} from '#lib/chart/catalogue'
import { type CatalogueOrder, catalogueOrders } from '#lib/chart/catalogue-orders'

const settings = { seed: 20260907, numRuns: 200 }
const someOf = (...values: string[]) => fc.uniqueArray(fc.constantFrom(...values), { maxLength: 3 })

const aRecord: fc.Arbitrary<DesignRecord> = fc.record({
  designId: fc.integer({ min: 0, max: 30 }).map((n) => `d${n}`),
  chartId: fc.constant('chart'),
  title: fc.constantFrom('Nine Wrens', 'nine wrens', 'Little Barge', 'Ünder the Pump'),
  chartTitle: fc.constant('Booklet'),
  kind: fc.constantFrom('leaflet' as const, 'booklet' as const),
  ownerId: fc.constantFrom('shop', 'own stash'),
  designerIds: someOf('Stoat', 'Quayle', 'Crake'),
  designerNames: someOf('Mirabel Stoat', 'Dorrit Quayle'),
  seasonIds: someOf('winter', 'spring'),
  subjectIds: someOf('birds', 'houses', 'ships'),
  formIds: someOf('ornament', 'band sampler'),
  placeIds: someOf('room', 'rack', 'box'),
  homePlaceId: fc.constant(null),
  currentPlaceId: fc.constant(null),
  copies: fc.constant(1),
  stitchCount: fc.option(fc.integer({ min: 1, max: 4 })),
  boughtOn: fc.option(fc.constantFrom('2026-01-02', '2025-03-04')),
})
type Answer = { statusRank: number; buyPutUps: number; fit: number; kinds: number }

/** Made up, and not in step with the ranks. */
const readinessOfRank = [0, 1, 0, 2, 1, 2, 0, 2]
const readyOf = ({ statusRank }: Answer) => readinessOfRank[statusRank] as number
const anAnswer: fc.Arbitrary<Answer> = fc.record({
  statusRank: fc.integer({ min: 0, max: 7 }),
  buyPutUps: fc.integer({ min: 0, max: 12 }),
  fit: fc.integer({ min: 0, max: 2 }),
  kinds: fc.integer({ min: 0, max: 7 }),
})
const kindNames = ['block 14', 'single 28', 'single 32']

const someFilter: fc.Arbitrary<CatalogueFilter> = fc.record(
  {
    designer: someOf('Stoat', 'Quayle', 'nobody'),
    season: someOf('winter', 'spring'),
    subject: someOf('birds', 'ships'),
    form: someOf('ornament'),
    place: someOf('room', 'box'),
    owner: someOf('shop'),
    kind: someOf('leaflet', 'booklet'),
    clothCount: someOf(...kindNames),
    designIds: fc.uniqueArray(
      fc.integer({ min: 0, max: 30 }).map((n) => `d${n}`),
      { minLength: 15 },
    ),
    stitchableNow: fc.boolean(),
    withSwaps: fc.boolean(),
    shortByAtMost: fc.integer({ min: 0, max: 6 }),
    clothFits: fc.boolean(),
  },
  { requiredKeys: [] },
)

type Row = { record: DesignRecord; answer: Answer | undefined }

const valuesOf: Record<FacetName, (row: Row) => readonly string[]> = {
  designer: ({ record }) => record.designerIds,
  season: ({ record }) => record.seasonIds,
  subject: ({ record }) => record.subjectIds,
  form: ({ record }) => record.formIds,
  place: ({ record }) => record.placeIds,
  owner: ({ record }) => [record.ownerId],
  kind: ({ record }) => [record.kind],
  clothCount: ({ answer }) => kindNames.filter((_, kind) => answer && (answer.kinds >>> kind) & 1),
}

/** One filter after another, over all rows. */
function keep(rows: Row[], filter: CatalogueFilter): Row[] {
  return rows.filter((row) => {
    const { record, answer } = row
    if (filter.designIds && !filter.designIds.includes(record.designId)) return false
    if (filter.stitchableNow && (!answer || readyOf(answer) !== 2)) return false
    if (filter.withSwaps && !(answer && readyOf(answer) >= 1)) return false
    if (filter.shortByAtMost !== undefined && !(answer && answer.buyPutUps <= filter.shortByAtMost)) return false
    if (filter.clothFits && answer?.fit !== 2) return false
    return facetNames.every((name) => {
      const wanted = filter[name] ?? []
      return wanted.length === 0 || valuesOf[name](row).some((value) => wanted.includes(value))
    })
  })
}

const columnsOf = (answers: Map<string, Answer>): { threads: AnswerColumns; cloth: ClothColumns } => {
  const rows = [...answers.keys()]
  const column = (name: keyof Answer) => [...answers.values()].map((answer) => answer[name])
  const layout = {}
  const rowOf = (designId: string) => rows.indexOf(designId)
  return {
    threads: {
      layout,
      rowOf,
      rankAt: (row) => column('statusRank')[row] as number,
      buyPutUpsAt: (row) => column('buyPutUps')[row] as number,
      readinessOfRank,
    },
    cloth: {
      layout,
      rowOf,
      fit: Uint8Array.from(column('fit')),
      kinds: kindNames,
      wordCount: 1,
      bits: Uint32Array.from(column('kinds')),
    },
  }
}

it('finds, counts and orders as going through all designs does, after any changes', () => {
  fc.assert(
    fc.property(
      fc.array(fc.oneof({ weight: 4, arbitrary: aRecord }, { weight: 1, arbitrary: fc.integer({ min: 0, max: 30 }) }), {
        maxLength: 60,
      }),
      fc.uniqueArray(fc.tuple(fc.integer({ min: 0, max: 30 }), anAnswer), { selector: ([n]) => n, maxLength: 30 }),
      someFilter,
      fc.constantFrom(...catalogueOrders),
      (changes, answered, filter, order: CatalogueOrder) => {
        const catalogue = new Catalogue()
        const records = new Map<string, DesignRecord>()
        const answers = new Map(answered.map(([n, answer]) => [`d${n}`, answer]))
        const columns = columnsOf(answers)
        changes.forEach((change, index) => {
          if (typeof change === 'number') {
            catalogue.remove(`d${change}`)
            records.delete(`d${change}`)
          } else {
            catalogue.upsert(change)
            records.set(change.designId, change)
          }
          if (index % 7 === 0) catalogue.filter({}, columns, order)
        })
        const rows = [...records.values()].map((record): Row => ({ record, answer: answers.get(record.designId) }))
        const result = catalogue.filter(filter, columns, order)
        const found = [...result.slots].map((slot) => catalogue.recordAt(slot))
        const kept = keep(rows, filter)
        expect(catalogue.size).toBe(rows.length)
        expect(found.map((record) => record.designId).sort()).toEqual(kept.map(({ record }) => record.designId).sort())

        for (const name of facetNames) {
          const others = keep(rows, { ...filter, [name]: [] })
          const counts: Record<string, number> = {}
          for (const row of others) for (const value of valuesOf[name](row)) counts[value] = (counts[value] ?? 0) + 1
          expect(Object.fromEntries(result.facets[name])).toEqual(counts)
        }
        const ready = keep(rows, { ...filter, stitchableNow: false, withSwaps: false })
        expect(result.switches.stitchableNow).toBe(ready.filter(({ answer }) => answer && readyOf(answer) === 2).length)
        expect(result.switches.withSwaps).toBe(ready.filter(({ answer }) => answer && readyOf(answer) >= 1).length)
        expect(result.switches.clothFits).toBe(keep(rows, { ...filter, clothFits: true }).length)
        for (let most = 0; most <= longestShort; most++) {
          expect(result.switches.shortByAtMost[most]).toBe(keep(rows, { ...filter, shortByAtMost: most }).length)
        }

        const rank = ({ designId, stitchCount, boughtOn }: DesignRecord): number => {
          const answer = answers.get(designId)
          if (order === 'bestCovered') return answer ? -answer.statusRank * 100 + answer.buyPutUps : 1_000
          if (order === 'size') return stitchCount ?? 1_000
          if (order === 'newest') return boughtOn ? -Number(boughtOn.replaceAll('-', '')) : 1
          return 0
        }
        for (let i = 1; i < found.length; i++) {
          expect(rank(found[i - 1] as DesignRecord)).toBeLessThanOrEqual(rank(found[i] as DesignRecord))
        }
      },
    ),
    settings,
  )
})
