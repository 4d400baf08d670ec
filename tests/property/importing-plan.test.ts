import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { ImportKind } from '#lib/importing/fields'
import { applyPlan, type ImportPlan } from '#lib/importing/import-plan'
import { planImport } from '#lib/importing/plan-import'
import { emptySnapshot, type Snapshot } from '#lib/importing/snapshot'
import { check, ids, plan } from '#tests/unit/importing/bring-in'

const settings = { seed: 20260907, numRuns: 80 }

/** Few values, so that rows often speak of the same things, agree, disagree, repeat or lead in a ring. */
const oneOf = (...values: string[]) => fc.constantFrom(...values)
const columns: Record<ImportKind, Record<string, fc.Arbitrary<string>>> = {
  places: {
    Label: oneOf('T1', 't1', 'T2', 'Loft', 'Box 3', ''),
    Kind: oneOf('', 'drawer', 'box', 'wozzle'),
    Inside: oneOf('', 'T1', 'T2', 'Loft', 'Rack 9'),
    Capacity: oneOf('', '10', '20'),
  },
  threads: {
    Owner: oneOf('', 'Shop', 'shop'),
    Maker: oneOf('Larkholm', 'larkholm', 'Oddny Loft'),
    Line: oneOf('', 'Stranded', 'Pearl'),
    Code: oneOf('0017', '17', 'Ecru', ''),
    Name: oneOf('', 'Rust', 'Moss'),
    Strands: oneOf('', '6', '4'),
    'Put-up': oneOf('', '8 m', '5 yd'),
    Dyed: oneOf('', 'solid', 'overdyed'),
    Lot: oneOf('', '18', '22'),
    Skeins: oneOf('', '0', '1', '2', '2.5'),
    Part: oneOf('', '1/2', 'some', '2.5 m measured'),
    Place: oneOf('', 'T1', 'T2'),
    'Now at': oneOf('', 'Bag K-07'),
    'Stands in for': oneOf('', '', 'Larkholm | Stranded | 0018'),
  },
  cloth: {
    Owner: oneOf('', 'Shop'),
    Label: oneOf('', '', 'C-1', 'C-2'),
    Cloth: oneOf('Linen', 'Aida'),
    Count: oneOf('28', '34 x 31'),
    Size: oneOf('18 x 27 in', '9 x 9 in'),
    Colour: oneOf('', 'Fog', 'White'),
    Place: oneOf('', 'T1', 'T2'),
    Note: oneOf('', 'stained'),
  },
  charts: {
    Owner: oneOf('', 'Shop'),
    Chart: oneOf('Nine Wrens', 'Wick Lane', 'nine wrens'),
    Design: oneOf('', 'Border', 'Nine Wrens'),
    Designer: oneOf('', 'Tilda Quennell', 'Saskia Thrupp; Tilda Quennell', 'Tilda Quennell; Saskia Thrupp'),
    Kind: oneOf('', 'leaflet', 'booklet'),
    Place: oneOf('', 'R1', 'R2'),
    Copies: oneOf('', '1', '2'),
    Size: oneOf('', '84 x 84', '8 x 6 in'),
    Count: oneOf('', '14', '28 over 2'),
    Season: oneOf('', 'Winter', 'Winter; Spring'),
  },
  lists: {
    Chart: oneOf('Nine Wrens', 'Alphabets', 'Nobody'),
    Design: oneOf('', '', 'Small', 'Large'),
    List: oneOf('', 'Silk list'),
    Symbol: oneOf('x', 'o', ''),
    Maker: oneOf('Larkholm', 'Larkholm+Oddny Loft', 'Oddny Loft'),
    Line: oneOf('', 'Stranded', 'Cotton'),
    Code: oneOf('0017', '0017+0018', '18'),
    Strands: oneOf('', '2', '1+1'),
    Full: oneOf('', '320'),
    Skeins: oneOf('', '0.6'),
    'Put-up': oneOf('', '8 m'),
  },
  projects: {
    Design: oneOf('Nine Wrens', 'Small', 'Nobody'),
    Owner: oneOf('', 'Shop'),
    Status: oneOf('', 'planned', 'stitching'),
    Started: oneOf('', '2026-01-02', '2026-02-03'),
    Finished: oneOf('', '2026-05-05'),
    Place: oneOf('', 'Bag K-07'),
    For: oneOf('', 'Ines'),
    Cloth: oneOf('', 'C-1'),
    'How many': oneOf('', '1', '12'),
    Spares: oneOf('', '', '1'),
  },
  notions: {
    Owner: oneOf('', 'Shop'),
    Kind: oneOf('', 'needle', 'hoop', 'wozzle'),
    Name: oneOf('Tapestry needles', 'Little hoop', ''),
    Size: oneOf('', 'size 26', '4 in', '10.16 cm'),
    'How many': oneOf('', '1', '6'),
    'Pack of': oneOf('', '6'),
    Place: oneOf('', 'T1', 'T2'),
    'Now at': oneOf('', 'Bag K-07'),
    Note: oneOf('', 'bent'),
  },
}

/** Something for lists and projects to speak of. */
const stocked = [
  'Chart,Design,Designer,Kind\nNine Wrens,,Tilda Quennell,leaflet\nAlphabets,Small,Wilf Sarratt,booklet\nAlphabets,Large,Wilf Sarratt,booklet\n',
  'Label,Cloth,Weave,Count,Size\nC-1,Linen,single,28,18 x 27 in\n',
].reduce<Snapshot>(
  (snapshot, text, index) => applyPlan(snapshot, plan(text, snapshot, { newId: ids(`s${index}-`) })),
  emptySnapshot,
)

const write = (rows: Record<string, string>[], headers: string[]): string =>
  [headers, ...rows.map((row) => headers.map((header) => row[header] ?? ''))].map((cells) => `${cells.join(',')}\n`).join('')

const read = (kind: ImportKind, rows: Record<string, string>[]) => {
  // A first row that every kind refuses, so that a file of blank rows is still a file.
  return check(write([{ 'Walk order': 'first' }, ...rows], [...Object.keys(columns[kind]), 'Walk order']), { kind })
}

/** What a plan does, with row numbers and ids taken out: rows by what they say, things by what they are. */
function gist(planned: ImportPlan) {
  const sorted = (texts: string[]) => texts.sort()
  return {
    counts: planned.counts,
    rows: sorted(planned.rows.map((row) => `${row.rowKey} ${row.outcome} ${row.noun} ${row.nounId}`)),
    errors: sorted(planned.errors.map(({ field, kind, raw }) => `${field} ${kind} ${raw}`)),
    warnings: sorted(planned.warnings.map(({ field, kind, raw }) => `${field} ${kind} ${raw}`)),
    operations: sorted(planned.operations.map(({ rowNumber: _, ...operation }) => JSON.stringify(operation))),
    movements: sorted(planned.movements.map(({ rowNumber: _, ...movement }) => JSON.stringify(movement))),
  }
}

const kinds = Object.keys(columns) as ImportKind[]
const rowsOf = (kind: ImportKind) => fc.array(fc.record(columns[kind]), { minLength: 1, maxLength: 9 })

describe('planning an import', () => {
  for (const kind of kinds.filter((one) => one !== 'lists')) {
    it(`gives the same plan whatever the order of the rows: ${kind}`, () => {
      const shuffled = rowsOf(kind).chain((rows) =>
        fc.tuple(fc.constant(rows), fc.shuffledSubarray(rows, { minLength: rows.length, maxLength: rows.length })),
      )
      fc.assert(
        fc.property(shuffled, ([rows, others]) => {
          const planned = planImport(read(kind, rows), stocked, { newId: ids() })
          expect(gist(planImport(read(kind, others), stocked, { newId: ids() }))).toEqual(gist(planned))
        }),
        settings,
      )
    })
  }

  for (const kind of kinds) {
    it(`counts each row once, points only at what is there, and changes nothing when the file comes again, remembered or not: ${kind}`, () => {
      fc.assert(
        fc.property(rowsOf(kind), (rows) => {
          const checked = read(kind, rows)
          const planned = planImport(checked, stocked, { newId: ids() })
          const { added, changed, same, refused } = planned.counts
          expect(added + changed + same + refused).toBe(checked.rows.length + checked.refusedRows.length)
          const after = applyPlan(stocked, planned)
          for (const row of planned.rows) {
            if (row.nounId !== null) expect(after[row.noun].some((one) => one.id === row.nounId)).toBe(true)
          }
          const again = planImport(checked, after, { newId: ids('again') })
          expect([again.operations, again.movements]).toEqual([[], []])
          expect(again.counts).toMatchObject({ added: 0, changed: 0, refused })
          const forgotten = planImport(checked, { ...after, broughtIn: new Map() }, { newId: ids('again') })
          expect([forgotten.operations, forgotten.movements]).toEqual([[], []])
        }),
        settings,
      )
    })
  }

  it('keeps stock equal to the sum of its movements', () => {
    fc.assert(
      fc.property(rowsOf('threads'), rowsOf('threads'), (first, second) => {
        let snapshot = stocked
        const moved = new Map<string, [number, number]>()
        for (const [index, rows] of [first, second].entries()) {
          const planned = planImport(read('threads', rows), snapshot, { newId: ids(`p${index}-`) })
          snapshot = applyPlan(snapshot, planned)
          for (const { nounId, wholeDelta, partDeltaStrandTenths } of planned.movements) {
            const [whole, part] = moved.get(nounId) ?? [0, 0]
            moved.set(nounId, [whole + wholeDelta, part + partDeltaStrandTenths])
          }
        }
        for (const batch of snapshot.batch) expect(moved.get(batch.id)).toEqual([batch.wholePutUps, batch.partStrandTenths])
      }),
      settings,
    )
  })
})
