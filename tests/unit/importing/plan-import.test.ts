import { describe, expect, it } from 'vitest'
import { emptySnapshot, type Snapshot } from '#lib/importing/snapshot'
import { byHand, charts, counts, having, lists, plan, threads, wrong } from './bring-in'

describe('places', () => {
  it('stand in one another whichever row comes first, and are made when only named', () => {
    const snapshot = having('Label,Kind,Inside\nT2.1,drawer,T2\nT2,cabinet,Loft\n')
    const labelOf = new Map(snapshot.place.map((place) => [place.id, place.label]))
    expect(snapshot.place.map((place) => [place.label, place.kind, labelOf.get(place.parentId ?? '') ?? null]).sort()).toEqual([
      ['Loft', 'drawer', null],
      ['T2', 'cabinet', 'Loft'],
      ['T2.1', 'drawer', 'T2'],
    ])
  })

  it('are refused where they would stand inside themselves, by this file or with what is there', () => {
    const planned = plan('Label,Inside\nA,B\nB,C\nC,A\nD,A\n')
    expect(planned.errors.map(({ rowNumber, kind }) => [rowNumber, kind])).toEqual([2, 3, 4].map((row) => [row, 'inside-itself']))
    expect(planned.counts).toEqual({ added: 1, changed: 0, same: 0, refused: 3 })
    expect(wrong(plan('Label,Inside\nLoft,T2\n', having('Label,Inside\nT2,Loft\n')))).toEqual([
      [2, 'Inside', 'inside-itself', 'T2', undefined],
    ])
    expect(wrong(plan('Label,Inside\nLoft,Loft\n'))).toEqual([[2, 'Inside', 'inside-itself', 'Loft', undefined]])
  })

  it('come back when they were removed and are brought in again', () => {
    const there = having('Label\nT2\n')
    const gone = byHand({ ...there, place: there.place.map((place) => ({ ...place, isGone: true })) })
    const planned = plan('Label\nt2\n', gone, { kind: 'places' })
    expect(planned.operations).toMatchObject([
      { do: 'change', noun: 'place', before: { isGone: true }, after: { isGone: false } },
    ])
    expect(counts(planned)).toEqual([0, 1, 0, 0])
  })

  describe('by a label that is old', () => {
    const there = having('Label,Kind,Inside\nT2,cabinet,\nT4,drawer,T2\nT5,drawer,T2\n')
    const idOf = (label: string) => there.place.find((place) => place.label === label)?.id as string
    // T5 went into T4.
    const merged = byHand({
      ...there,
      place: there.place.map((place) => (place.label === 'T5' ? { ...place, isGone: true } : place)),
      formerLabel: [{ label: 'T5', placeId: idOf('T4'), isSplit: false }],
    })

    it('are those they mean now: nothing is brought back or changed, and it is said', () => {
      const planned = plan('Label,Kind,Note\nt5,box,by the door\n', merged, { kind: 'places' })
      expect(planned.operations).toEqual([])
      expect(counts(planned)).toEqual([0, 0, 1, 0])
      expect(planned.warnings).toMatchObject([{ rowNumber: 2, field: 'label', kind: 'old-label', raw: 't5', accepted: ['T4'] }])
    })

    it('take what is put in them, and cannot come to stand in themselves', () => {
      const planned = plan('Label,Inside\nT6,T5\n', merged, { kind: 'places' })
      expect(planned.operations).toMatchObject([{ do: 'add', noun: 'place', row: { label: 'T6', parentId: idOf('T4') } }])
      expect(planned.warnings).toMatchObject([{ field: 'inside', kind: 'old-label', raw: 'T5', accepted: ['T4'] }])
      expect(wrong(plan('Label,Inside\nT4,T5\n', merged, { kind: 'places' }))).toEqual([
        [2, 'Inside', 'inside-itself', 'T5', undefined],
      ])
    })

    it('are where the threads of a file go', () => {
      const planned = plan(`${threads}Larkholm,Stranded,0017,Rust,8 m,solid,,2,,T5\n`, merged)
      expect(planned.operations.filter(({ noun }) => noun === 'place')).toEqual([])
      expect(planned.operations).toContainEqual(
        expect.objectContaining({ noun: 'batch', row: expect.objectContaining({ homePlaceId: idOf('T4') }) }),
      )
      expect(planned.warnings).toMatchObject([{ rowNumber: 2, field: 'place', kind: 'old-label', raw: 'T5', accepted: ['T4'] }])
    })

    it('mean the place that has the label now, where one has', () => {
      const again = {
        ...merged,
        place: [{ ...(there.place[0] as (typeof there.place)[number]), id: 'a', label: 'T5' }, ...merged.place],
      }
      expect(plan('Label\nT5\n', again, { kind: 'places' }).warnings).toEqual([])
    })
  })

  it('say so when rows of one label disagree, and take what most of them say', () => {
    const planned = plan('Label,Kind\nT2,box\nT2,cabinet\nT2,cabinet\n')
    expect(planned.operations).toMatchObject([{ noun: 'place', row: { kind: 'cabinet' } }])
    expect(planned.warnings).toMatchObject([{ rowNumber: 2, kind: 'rows-disagree', raw: 'box', accepted: ['cabinet'] }])
    expect(counts(planned)).toEqual([1, 0, 2, 0])
  })
})

describe('threads', () => {
  const file = `${threads}Larkholm,Stranded,0017,Rust,8 m,solid,,2,1/2,T2.1\nOddny Loft,Cotton,Tarn Blue,,5 yd,hand-dyed,18,1,,T4\n`

  it('make owner, maker, line, thread, place and batch, each once, with a receipt in the journal', () => {
    const planned = plan(file)
    expect(planned.operations.map((operation) => operation.noun)).toEqual(
      'owner,place,place,maker,maker,line,line,thread,thread,batch,batch'.split(','),
    )
    const batches = planned.operations.flatMap((operation) =>
      operation.noun === 'batch' && operation.do === 'add' ? [operation.row] : [],
    )
    // 8 m of six strands is 480,000 tenths of a millimetre; 5 yd is 4.572 m.
    expect(batches).toContainEqual(
      expect.objectContaining({
        putUpStrandTenths: 480_000,
        wholePutUps: 2,
        partStrandTenths: 240_000,
        partCertainty: 'guess',
        lot: null,
      }),
    )
    expect(batches).toContainEqual(
      expect.objectContaining({ putUpStrandTenths: 274_320, wholePutUps: 1, partCertainty: 'none', lot: '18' }),
    )
    expect(
      planned.movements.map(({ kind, wholeDelta, partDeltaStrandTenths }) => [kind, wholeDelta, partDeltaStrandTenths]).sort(),
    ).toEqual([
      ['receive', 1, 0],
      ['receive', 2, 240_000],
    ])
    const lines = planned.operations.flatMap((operation) =>
      operation.noun === 'line' && operation.do === 'add' ? [operation.row] : [],
    )
    expect(lines.map(({ name, lotsMatter, working }) => [name, lotsMatter, working]).sort()).toEqual([
      ['Cotton', true, 'crosses'],
      ['Stranded', false, 'rows'],
    ])
  })

  it.each([
    ['Hand-dyed Cotton', '', 'overdyed', true],
    ['HANDDYED cotton', '', 'overdyed', true],
    ['Over-dyed Linen', '', 'overdyed', true],
    ['Overdyed', '', 'overdyed', true],
    ['Baumwolle handgefärbt', '', 'overdyed', true],
    ['Silk Mill', 'cotton', 'solid', true],
    ['Stranded', 'Seide', 'solid', true],
    ['Stranded', '', 'solid', false],
    ['Handled Cotton', '', 'solid', false],
  ])(
    'tell of a line called %s, of fibre “%s”, without a word on its dyeing, that it is %s',
    (name, fibre, dyeing, lotsMatter) => {
      const text = `Maker,Line,Code,Fibre,Lot,Skeins\nOddny Loft,${name},Haw,${fibre},18,1\nOddny Loft,${name},Haw,${fibre},22,1\n`
      const planned = plan(text, emptySnapshot, { kind: 'threads' })
      const lines = planned.operations.flatMap(({ noun, ...rest }) => (noun === 'line' && 'row' in rest ? [rest.row] : []))
      expect(lines).toMatchObject([{ dyeing, lotsMatter, working: dyeing === 'solid' ? 'rows' : 'crosses' }])
      expect(planned.warnings.filter(({ kind }) => kind === 'dyeing-assumed')).toMatchObject(
        dyeing === 'solid' ? [] : [{ field: 'line', raw: name, accepted: ['overdyed'] }],
      )
    },
  )

  it('take what a file says of dyeing and lots before what the name of the line sounds like', () => {
    const text =
      'Maker,Line,Code,Dyed,Lots matter,Skeins\nOddny Loft,Hand-dyed Look,Haw,solid,,1\nOddny Loft,Overdyed,Haw,,no,1\n'
    const planned = plan(text, emptySnapshot, { kind: 'threads' })
    const lines = planned.operations.flatMap(({ noun, ...rest }) => (noun === 'line' && 'row' in rest ? [rest.row] : []))
    expect(lines).toMatchObject([
      { name: 'Hand-dyed Look', dyeing: 'solid', lotsMatter: false },
      { name: 'Overdyed', dyeing: 'overdyed', lotsMatter: false },
    ])
    expect(planned.warnings.map(({ kind, rowNumber }) => [kind, rowNumber])).toEqual([['dyeing-assumed', 3]])
  })

  it('change nothing when the file comes again, even after stock was used', () => {
    const there = having(file)
    const used: Snapshot = { ...there, batch: there.batch.map((batch) => ({ ...batch, wholePutUps: 0 })) }
    const planned = plan(file, used)
    expect(counts(planned)).toEqual([0, 0, 2, 0])
    expect([planned.operations, planned.movements]).toEqual([[], []])
  })

  it('become a correction where the file says another amount', () => {
    const planned = plan(file.replace(',2,1/2,', ',5,,'), having(file))
    expect(counts(planned)).toEqual([0, 1, 1, 0])
    expect(planned.operations).toMatchObject([
      {
        do: 'change',
        noun: 'batch',
        before: { wholePutUps: 2, partStrandTenths: 240_000 },
        after: { wholePutUps: 5, partStrandTenths: 0 },
      },
    ])
    expect(planned.movements).toMatchObject([{ kind: 'correct', wholeDelta: 3, partDeltaStrandTenths: -240_000 }])
  })

  it('leave alone what a row does not speak of', () => {
    const there = byHand(having(file))
    const planned = plan('Maker,Line,Code,Skeins\nLarkholm,Stranded,0017,2\n', there)
    expect(counts(planned)).toEqual([0, 0, 1, 0])
    expect(planned.operations).toEqual([])
  })

  it('are known, but make no batch, when none is held and no place is named', () => {
    const planned = plan('Maker,Line,Code,Skeins\nLarkholm,Stranded,0017,0\n')
    expect(planned.operations.map((operation) => operation.noun)).toEqual(['owner', 'maker', 'line', 'thread'])
    expect(counts(planned)).toEqual([1, 0, 0, 0])
  })

  it('hold an amount nobody judged where the file counts nothing', () => {
    const planned = plan('Maker,Line,Code,Drawer\nLarkholm,Stranded,0017,T1\n')
    expect(planned.operations.at(-1)).toMatchObject({
      noun: 'batch',
      row: { wholePutUps: 0, partStrandTenths: 0, partCertainty: 'some' },
    })
  })

  it('count two equal rows as two batches', () => {
    const planned = plan(`${threads}Larkholm,Stranded,0017,,8 m,,,1,,T1\nLarkholm,Stranded,0017,,8 m,,,1,,T1\n`)
    expect(counts(planned)).toEqual([2, 0, 0, 0])
    expect(planned.operations.filter((operation) => operation.noun === 'batch')).toHaveLength(2)
    expect(planned.operations.filter((operation) => operation.noun === 'thread')).toHaveLength(1)
  })

  it('keep owners, lots and put-ups of one thread apart', () => {
    const text =
      'Owner,Maker,Line,Code,Lot,Put-up,Skeins\nShop,Larkholm,Stranded,0017,1,8 m,1\nPetra Lisle,Larkholm,Stranded,0017,1,8 m,1\nShop,Larkholm,Stranded,0017,2,8 m,1\nShop,Larkholm,Stranded,0017,1,8 yd,1\n'
    const there = having(text)
    expect(there.batch).toHaveLength(4)
    const planned = plan(text.replace('1,8 yd,1', '1,8 yd,4'), byHand(there))
    expect(planned.movements).toMatchObject([{ kind: 'correct', wholeDelta: 3 }])
  })

  it('find the line of a row that names none, when only one can be meant', () => {
    const two = 'Maker,Line,Code,Skeins\nLarkholm,Stranded,0017,1\nLarkholm,Pearl,0018,1\n'
    expect(plan(`${two}Larkholm,,0018,1\n`).counts.refused).toBe(0)
    expect(wrong(plan(`${two}Larkholm,,0019,1\n`))).toEqual([[4, 'Line', 'which-line', '0019', ['Pearl', 'Stranded']]])
    expect(
      plan('Maker,Line,Code,Skeins\nLarkholm,Stranded,0017,1\nLarkholm,,0019,1\n').operations.filter(
        ({ noun }) => noun === 'line',
      ),
    ).toHaveLength(1)
  })

  it('point out a code that lost its zeros, and make it all the same', () => {
    const planned = plan('Maker,Line,Code,Skeins\nLarkholm,Stranded,17,1\n', having(file))
    expect(planned.warnings).toMatchObject([{ rowNumber: 2, kind: 'code-nearly-known', raw: '17', accepted: ['0017'] }])
    expect(planned.operations.map((operation) => operation.noun)).toContain('thread')
  })

  it('are out when the file says they are somewhere else now', () => {
    const planned = plan('Maker,Line,Code,Skeins,Place,Now at\nLarkholm,Stranded,0017,1,T2.1,Bag K-07\n')
    const placeId = (label: string) =>
      planned.operations.find(
        ({ noun, do: what, ...rest }) =>
          noun === 'place' && what === 'add' && 'row' in rest && (rest.row as { label: string }).label === label,
      )?.id
    expect(planned.operations.at(-1)).toMatchObject({
      row: { homePlaceId: placeId('T2.1'), currentPlaceId: placeId('Bag K-07') },
    })
    expect(planned.operations.filter(({ noun }) => noun === 'place')).toContainEqual(
      expect.objectContaining({ row: expect.objectContaining({ label: 'Bag K-07', kind: 'bag' }) }),
    )
  })

  it('stand in for others, one way', () => {
    const planned = plan('Maker,Line,Code,Skeins,Stands in for\nLarkholm,Stranded,0017,1,Oddny Loft | Cotton | Tarn Blue\n')
    const standIn = planned.operations.find((operation) => operation.noun === 'standIn')
    const [batch] = planned.operations.filter((operation) => operation.noun === 'batch')
    expect(standIn).toMatchObject({
      row: { standInThreadId: batch?.do === 'add' && batch.noun === 'batch' ? batch.row.threadId : null },
    })
  })
})

describe('notions', () => {
  const head = 'Kind,Name,Size,How many,Place,Note\n'
  const there = having(`${head}needle,Tapestry needles,size 26,12,Tin 3,\nhoop,Beech hoop,10 in,1,Shelf 2,\n`)

  it('come in with their number in the journal', () => {
    expect(there.notion).toMatchObject([
      { kind: 'needle', name: 'Tapestry needles', size: 'size 26', count: 12, isInUse: false },
      { kind: 'hoop', name: 'Beech hoop', size: '10 in', count: 1 },
    ])
    const planned = plan(`${head}hoop,Slate frame,,,Loft,\n`)
    expect(planned.movements).toMatchObject([{ kind: 'receive', noun: 'notion', wholeDelta: 1 }])
  })

  it('are known again by kind, name and size however it is written, and by where they live', () => {
    const text = `${head}Needles,tapestry needles,no. 26,9,Tin 3,\nhoop,Beech hoop,25.4 cm,1,Shelf 2,\nhoop,Beech hoop,10 in,1,Tin 3,\n`
    const planned = plan(text, byHand(there))
    expect(counts(planned)).toEqual([1, 1, 1, 0])
    expect(planned.movements.map(({ kind, wholeDelta }) => [kind, wholeDelta]).sort()).toEqual([
      ['correct', -3],
      ['receive', 1],
    ])
  })

  it('leave alone what a project has', () => {
    const used = byHand({ ...there, notion: there.notion.map((notion) => ({ ...notion, isInUse: true })) })
    const planned = plan(`${head}needle,Tapestry needles,size 26,9,Tin 3,\n`, used)
    // The others of the sort stand beside those in use.
    expect(planned.operations.every(({ do: done, noun }) => noun !== 'notion' || done === 'add')).toBe(true)
  })
})

describe('a large file', () => {
  const numbers = Array.from({ length: 20_000 }, (_, index) => String(index).padStart(5, '0'))
  const files: Record<string, string> = {
    threads: threads + numbers.map((code, index) => `Larkholm,Stranded,${code},,8 m,,,${index % 7},,T${index % 400}\n`).join(''),
    charts:
      charts + numbers.map((title, index) => `Chart ${title},,Designer ${index % 90},leaflet,R${index % 80},84,84,14\n`).join(''),
    cloth: `Label,Cloth,Weave,Count,Size\n${numbers.map((label) => `C-${label},Linen,single,28,18 x 27 in\n`).join('')}`,
  }
  for (const [kind, text] of Object.entries(files)) {
    it(`of 20,000 ${kind} is planned whole`, () => {
      expect(counts(plan(text))).toEqual([20_000, 0, 0, 0])
    })
  }

  it('of 20,000 rows of a thousand lists is planned whole', () => {
    const there = having(
      charts +
        numbers
          .slice(0, 1_000)
          .map((title) => `Chart ${title},,,leaflet,R1,84,84,14\n`)
          .join(''),
    )
    const rows = numbers.map(
      (_, index) => `Chart ${numbers[index % 1_000]},,,,${index % 20},Larkholm,Stranded,${index % 450},2,${1 + (index % 99)}\n`,
    )
    expect(counts(plan(lists + rows.join(''), there))).toEqual([20_000, 0, 0, 0])
  })
})
