import { describe, expect, it } from 'vitest'
import { applyPlan } from '#lib/importing/import-plan'
import { byHand, charts, counts, having, lists, plan, wrong } from './bring-in'

describe('charts', () => {
  it('take an allowance over, change it, and keep it where a later file does not speak of it', () => {
    const first = having('Chart,Design,Width,Height,Allowance\nNine Wrens,,84,84,1.42\n')
    expect(first.design).toMatchObject([{ allowanceProfile: 'own', allowanceHundredths: 142 }])
    const changed = plan('Chart,Design,Width,Height,Allowance\nNine Wrens,,84,84,scattered\n', byHand(first))
    expect(changed.operations).toMatchObject([{ after: { allowanceProfile: 'scattered', allowanceHundredths: null } }])
    expect(counts(plan('Chart,Design,Width,Height\nNine Wrens,,84,84\n', byHand(first)))).toEqual([0, 0, 1, 0])
  })

  it('hold the designs of several rows, what one row says of the booklet serving them all', () => {
    const there = having(
      `${charts}Hollin Staithe Alphabets,Small,Wilf Sarratt,booklet,R1,40,40,14\nHollin Staithe Alphabets,Large,,,,90,90,\n`,
    )
    expect(there.chart).toMatchObject([{ title: 'Hollin Staithe Alphabets', kind: 'booklet', copies: 1 }])
    expect(there.design.map(({ title, position, widthStitches }) => [title, position, widthStitches])).toEqual([
      ['Large', 0, 90],
      ['Small', 1, 40],
    ])
  })

  it('of one title are two when their designers differ, and a row that fits both is refused', () => {
    const two = `${charts}Wick Lane,,Saskia Thrupp,leaflet,R1,40,40,14\nWick Lane,,Corvin Ashdale,leaflet,R1,50,50,14\n`
    expect(having(two).chart).toHaveLength(2)
    const planned = plan(`${two}Wick Lane,Border,,leaflet,R1,9,9,14\n`)
    expect(planned.errors).toMatchObject([{ rowNumber: 4, kind: 'which-chart' }])
    expect(planned.counts).toMatchObject({ added: 2, refused: 1 })
    const later = plan(`${charts}Wick Lane,,,,R2,,,\n`, having(two))
    expect(later.errors).toMatchObject([{ rowNumber: 2, kind: 'which-chart' }])
  })

  it('are found again without a designer in the file, and gain one where none was noted', () => {
    const there = byHand(having(`${charts}Nine Wrens,,Tilda Quennell,leaflet,R1,84,84,14\n`))
    expect(counts(plan(`${charts}Nine Wrens,,,,R1,84,84,14\n`, there))).toEqual([0, 0, 1, 0])
    const unsigned = byHand(having(`${charts}Nine Wrens,,,leaflet,R1,84,84,14\n`))
    expect(plan(`${charts}Nine Wrens,,Tilda Quennell,,R1,84,84,14\n`, unsigned).operations).toMatchObject([
      { noun: 'designer', do: 'add' },
      { noun: 'chart', do: 'change' },
    ])
  })

  it('move with a line in the journal, and stay out when only their home changes', () => {
    const there = byHand(having(`${charts}Nine Wrens,,,leaflet,R1,84,84,14\n`))
    const moved = plan(`${charts}Nine Wrens,,,leaflet,R2,84,84,14\n`, there)
    expect(moved.movements).toMatchObject([{ kind: 'move', noun: 'chart', wholeDelta: 0 }])
    const out = { ...there, chart: there.chart.map((chart) => ({ ...chart, currentPlaceId: 'elsewhere' })) }
    expect(plan(`${charts}Nine Wrens,,,leaflet,R2,84,84,14\n`, out).movements).toEqual([])
  })

  it('have themes replaced axis by axis', () => {
    const there = byHand(having('Chart,Season,Subject\nNine Wrens,Winter,Birds; Trees\n'))
    const planned = plan('Chart,Season,Subject\nNine Wrens,,Birds\n', there)
    const name = (ids: string[] | undefined) => ids?.map((id) => there.theme.find((theme) => theme.id === id)?.name).sort()
    const [operation] = planned.operations
    expect(operation).toMatchObject({ do: 'change', noun: 'design' })
    expect(operation?.do === 'change' && operation.noun === 'design' && name(operation.after.themeIds)).toEqual([
      'Birds',
      'Winter',
    ])
  })
})

describe('lists', () => {
  const there = having(
    `${charts}Nine Wrens,,Tilda Quennell,leaflet,R1,84,84,14\nHollin Staithe Alphabets,Small,Wilf Sarratt,booklet,R1,40,40,14\nHollin Staithe Alphabets,Large,Wilf Sarratt,booklet,R1,90,90,14\n`,
  )
  const key = `${lists}Nine Wrens,,,,x,Larkholm,Stranded,0017,2,320\nNine Wrens,,,,o,Larkholm,Stranded,0018,2,40\nNine Wrens,,,,z,Larkholm,Stranded,0001,1,7\n`

  it('keep the order of the file', () => {
    const planned = plan(key, there)
    expect(counts(planned)).toEqual([3, 0, 0, 0])
    const list = planned.operations.find((operation) => operation.noun === 'list')
    expect(list?.do === 'add' && list.noun === 'list' && list.row.keyLines.map((line) => line.symbol)).toEqual(['x', 'o', 'z'])
    expect(list).toMatchObject({ row: { name: 'Printed list' } })
  })

  it('are replaced whole when a row differs', () => {
    const again = applyPlan(there, plan(key, there))
    expect(counts(plan(key, again))).toEqual([0, 0, 3, 0])
    const planned = plan(key.replace('0018,2,40', '0018,2,44'), again)
    expect(counts(planned)).toEqual([0, 1, 2, 0])
    expect(planned.operations).toMatchObject([{ do: 'change', noun: 'list' }])
    const shorter = key.split('\n').slice(0, 3).join('\n')
    expect(plan(shorter, byHand(again)).operations).toMatchObject([
      { do: 'change', noun: 'list', after: { keyLines: [{ symbol: 'x' }, { symbol: 'o' }] } },
    ])
  })

  it('name near titles for a design nobody knows', () => {
    const planned = plan(
      `${lists}Nine Wren,,,,x,Larkholm,Stranded,0017,2,320\nHollin Staithe Alphabets,,,,x,Larkholm,Stranded,0017,2,3\nHollin Staithe Alphabets,Smal,,,x,Larkholm,Stranded,0017,2,3\n`,
      there,
    )
    expect(wrong(planned)).toEqual([
      [2, 'Chart', 'unknown-design', 'Nine Wren', ['Nine Wrens']],
      [3, 'Design', 'which-design', 'Hollin Staithe Alphabets', ['Large', 'Small']],
      [4, 'Design', 'unknown-design', 'Smal', ['Small']],
    ])
    expect(planned.operations).toEqual([])
  })

  it('find a design by its own title where the file calls it the chart', () => {
    expect(plan(`${lists}Small,,,,x,Larkholm,Stranded,0017,2,320\n`, there).counts).toEqual({
      added: 1,
      changed: 0,
      same: 0,
      refused: 0,
    })
  })

  it('go to every copy of the chart', () => {
    const copies = applyPlan(
      there,
      plan(`${charts}Nine Wrens,,Tilda Quennell,leaflet,R9,84,84,14\n`, there, {
        owner: 'Shop',
        newId: (() => {
          let n = 0
          return () => `s${++n}`
        })(),
      }),
    )
    expect(plan(key, copies).operations.filter((operation) => operation.noun === 'list')).toHaveLength(2)
  })

  it('say when they lack a refused row, and ask for the whole list to be mended', () => {
    const planned = plan(
      `${key}Nine Wrens,,,,q,Larkholm,Stranded,0019,two,9\nHollin Staithe Alphabets,Small,,,x,Larkholm,Stranded,0017,2,3\n`,
      there,
    )
    expect(planned.counts).toEqual({ added: 4, changed: 0, same: 0, refused: 1 })
    expect(planned.warnings).toMatchObject([{ rowNumber: 2, kind: 'list-incomplete', accepted: ['5'] }])
    expect(planned.rowsToMend).toEqual([2, 3, 4, 5])
  })
})

describe('projects', () => {
  const there = having(
    `${charts}Nine Wrens,,Tilda Quennell,leaflet,R1,84,84,14\n`,
    `${lists}Nine Wrens,,,,x,Larkholm,Stranded,0017,2,320\n`,
    'Label,Cloth,Weave,Count,Size\nC-1,Linen,single,28,18 x 27 in\n',
  )
  const file = 'Design,Cloth,Status,Started,Finished,Place\nNine Wrens,C-1,stitching,2026-01-02,,Bag K-07\n'

  it('join design, its only list, cloth and bag', () => {
    const project = plan(file, there).operations.find((operation) => operation.noun === 'project')
    expect(project).toMatchObject({
      row: { status: 'stitching', threadListId: there.list[0]?.id, clothPieceId: there.cloth[0]?.id },
    })
  })

  it('are the same work when a later file says they were finished', () => {
    const again = applyPlan(there, plan(file, there))
    const planned = plan('Design,Cloth,Started,Finished,Place\nNine Wrens,C-1,2026-01-02,2026-05-05,Bag K-07\n', again)
    expect(planned.operations).toMatchObject([
      { do: 'change', noun: 'project', after: { status: 'finished', finishedOn: '2026-05-05' } },
    ])
  })

  it('are refused with what is there when design, list or cloth is unknown', () => {
    const planned = plan(
      'Design,List,Cloth,Status\nNine Rens,,,planned\nNine Wrens,Silk list,,planned\nNine Wrens,,C-2,planned\n',
      there,
    )
    expect(wrong(planned)).toEqual([
      [2, 'Design', 'unknown-design', 'Nine Rens', ['Nine Wrens']],
      [3, 'List', 'unknown-list', 'Silk list', ['Printed list']],
      [4, 'Cloth', 'unknown-cloth', 'C-2', ['C-1']],
    ])
  })
})

describe('projects of several kits', () => {
  const there = having(`${charts}Seven Lanterns,,Dorrit Quayle,leaflet,R1,84,84,14\n`)

  it('have on record those to be made and the spares beside them, and keep what a later file does not say', () => {
    const first = applyPlan(there, plan('Design,How many,Spares\nSeven Lanterns,12,1\n', there, { kind: 'projects' }))
    expect(first.project).toMatchObject([{ quantity: 13, spares: 1 }])
    const more = plan('Design,Spares\nSeven Lanterns,3\n', first, { kind: 'projects' })
    expect(applyPlan(first, more).project).toMatchObject([{ quantity: 15, spares: 3 }])
    const silent = plan('Design,Note\nSeven Lanterns,for the class\n', first, { kind: 'projects' })
    expect(silent.operations).toMatchObject([{ after: { note: 'for the class' } }])
    expect(applyPlan(there, plan('Design\nSeven Lanterns\n', there, { kind: 'projects' })).project).toMatchObject([
      { quantity: 1, spares: 0 },
    ])
  })
})
