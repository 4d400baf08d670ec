import { describe, expect, it } from 'vitest'
import type { CheckedRows, DraftOf } from '#lib/importing/drafts'
import type { ImportKind } from '#lib/importing/fields'
import { check, type Reading } from './bring-in'

function drafts<K extends ImportKind>(kind: K, text: string, reading: Reading = {}): DraftOf[K][] {
  const checked = check(text, { ...reading, kind })
  expect(checked.errors).toEqual([])
  return checked.rows.map((row) => row.draft as DraftOf[K])
}
const errors = (kind: ImportKind, text: string) =>
  check(text, { kind }).errors.map(({ rowNumber, column, kind: error, raw }) => [rowNumber, column, error, raw])
const warnings = (checked: CheckedRows) => checked.warnings.map(({ rowNumber, kind, raw }) => [rowNumber, kind, raw])

const inch = 25_400

describe('threads', () => {
  it('keep the code exactly, zeros and dashes and all', () => {
    const codes = ['0017', '17', '3-12', 'Ecru', '00.5', 'B5200x', '1/2', '007 A']
    const read = drafts('threads', `Maker,Code,Skeins\n${codes.map((code) => `Larkholm,${code},1`).join('\n')}\n`)
    expect(read.map((draft) => draft.code)).toEqual(codes)
  })

  it('point out a code that a spreadsheet may have made, and keep it', () => {
    const codes = ['12-Mar', '03.12.2026', 'Mar-12', '2026-03-12 00:00:00', '1,2E+05', '3-12', '12.5']
    const checked = check(`Maker\tCode\tSkeins\n${codes.map((code) => `Larkholm\t${code}\t1`).join('\n')}\n`, { kind: 'threads' })
    expect(checked.rows).toHaveLength(codes.length)
    expect(warnings(checked)).toEqual([
      [2, 'code-looks-like-date', '12-Mar'],
      [3, 'code-looks-like-date', '03.12.2026'],
      [4, 'code-looks-like-date', 'Mar-12'],
      [5, 'code-looks-like-date', '2026-03-12 00:00:00'],
      [6, 'code-looks-like-power', '1,2E+05'],
    ])
  })

  it('read put-ups in metres and yards', () => {
    const read = drafts(
      'threads',
      'Maker,Code,Put-up,Skeins\nLarkholm,1,8 m,1\nOddny Loft,2,5 yd,1\nLarkholm,3,8.7yd,1\nLarkholm,4,8,1\n',
    )
    expect(read.map((draft) => draft.putUpTenths)).toEqual([80_000, 45_720, 79_553, 80_000])
    expect(drafts('threads', 'Maker,Code,Length (yd),Skeins\nLarkholm,1,8,1\n')[0]?.putUpTenths).toBe(73_152)
  })

  it('read parts with how sure they are', () => {
    const written = ['2.5 m', '2.5 m measured', 'about 2.5 m', '1/2', 'about 1/2', '½', 'half a skein', '50%', 'some', '0', '']
    const read = drafts('threads', `Maker,Code,Skeins,Part\n${written.map((part) => `Larkholm,1,1,${part}`).join('\n')}\n`)
    const fraction = (numerator: number, denominator: number) => ({
      kind: 'fraction',
      numerator,
      denominator,
      certainty: 'guess',
    })
    const length = (certainty: string) => ({ kind: 'length', tenths: 25_000, certainty })
    expect(read.map((draft) => draft.part)).toEqual([
      length('label'),
      length('measured'),
      length('guess'),
      fraction(1, 2),
      fraction(1, 2),
      fraction(5_000, 10_000),
      fraction(1, 2),
      fraction(5_000, 10_000),
      { kind: 'some' },
      { kind: 'none' },
      { kind: 'none' },
    ])
    expect(errors('threads', 'Maker,Code,Skeins,Part\nLarkholm,1,1,a lot\n')).toEqual([[2, 'Part', 'not-a-part', 'a lot']])
  })

  it('read two and a half skeins as two whole ones and half a part', () => {
    for (const [text, separator] of [
      ['2.5', ','],
      ['2,5', ';'],
      ['2 1/2', ','],
      ['2½', ','],
    ] as const) {
      const [draft] = drafts(
        'threads',
        ['Maker', 'Code', 'Skeins'].join(separator).concat('\n', ['Larkholm', '1', text].join(separator), '\n'),
      )
      expect(draft).toMatchObject({
        wholePutUps: 2,
        part: { kind: 'fraction', numerator: 50, denominator: 100, certainty: 'guess' },
      })
    }
    expect(errors('threads', 'Maker,Code,Skeins,Part\nLarkholm,1,2.5,1/2\n')).toEqual([
      [2, 'Part', 'part-given-twice', '2.5 + 1/2'],
    ])
  })

  it('hold an unknown amount where the file has no column for amounts, and say so once', () => {
    const checked = check('Maker,Code,Drawer\nLarkholm,0017,T1\nLarkholm,0018,T1\n', { kind: 'threads' })
    expect(checked.rows[0]?.draft).toMatchObject({ wholePutUps: null, part: null, isHeldUncounted: true })
    expect(warnings(checked)).toEqual([[1, 'amount-not-said', '']])
  })

  it('take L, a and b together, or #rrggbb', () => {
    const [draft] = drafts('threads', 'Maker,Code,Skeins,L,a,b\nLarkholm,1,1,46,−38,18.5\n')
    expect(draft?.lab).toEqual({ L: 46, a: -38, b: 18.5 })
    expect(drafts('threads', 'Maker,Code,Skeins,Colour\nLarkholm,1,1,#ffffff\n')[0]?.lab?.L).toBeCloseTo(100, 3)
    expect(errors('threads', 'Maker,Code,Skeins,L,a,b\nLarkholm,1,1,46,,18\nLarkholm,2,1,146,0,0\n')).toEqual([
      [2, 'a', 'half-a-colour', ''],
      [3, 'L', 'out-of-range', '146'],
    ])
  })

  it('name what they stand in for', () => {
    const [draft] = drafts(
      'threads',
      'Maker,Code,Skeins,Stands in for\nLarkholm,1,1,Oddny Loft | Cotton | Tarn Blue; Larkholm|0018\n',
    )
    expect(draft?.standsInFor).toEqual([
      { maker: 'Oddny Loft', line: 'Cotton', code: 'Tarn Blue' },
      { maker: 'Larkholm', line: null, code: '0018' },
    ])
  })

  it('are refused one by one, with the column and what stands in it', () => {
    const text =
      'Maker,Code,Skeins,Dyed,Lots matter\nLarkholm,,1,solid,yes\nLarkholm,1,two,dipped,maybe\nLarkholm,2,-1,,\nLarkholm,3,1,hand-dyed,no\n'
    const checked = check(text, { kind: 'threads' })
    expect(checked.rows.map((row) => row.rowNumber)).toEqual([5])
    expect(errors('threads', text)).toEqual([
      [2, 'Code', 'missing', ''],
      [3, 'Skeins', 'not-a-number', 'two'],
      [3, 'Dyed', 'unknown-word', 'dipped'],
      [3, 'Lots matter', 'not-yes-or-no', 'maybe'],
      [4, 'Skeins', 'out-of-range', '-1'],
    ])
    expect(checked.errors.find((error) => error.kind === 'unknown-word')?.accepted).toEqual(['solid', 'variegated', 'overdyed'])
    expect(checked.refusedRows.map((row) => row.rowNumber)).toEqual([2, 3, 4])
  })

  it('take the maker and owner said for the whole file where a row has none', () => {
    const [draft] = drafts('threads', 'Code,Skeins\n0017,1\n', {
      mapping: { defaults: { maker: 'Larkholm', owner: 'Petra Lisle' } },
    })
    expect(draft).toMatchObject({ maker: 'Larkholm', owner: 'Petra Lisle' })
  })
})

describe('cloth', () => {
  it('says how its count is known, how it was dyed and washed, and why it lies one way', () => {
    const text =
      'Cloth,Count,Size,Count known,Dyed,Washed,One way because\n' +
      'Linen,28,9 x 9 in,counted,Hand-dyed,pre-washed,dye\n' +
      'Linen,28,9 x 9 in,label,raw,no,\n' +
      'Linen,28,9 x 9 in,,,never,drawn-work\n'
    expect(
      drafts('cloth', text).map(({ countCertainty, dyeing, washState, oneWayBecause, isTurnable }) => [
        ...[countCertainty, dyeing, washState],
        ...[oneWayBecause, isTurnable],
      ]),
    ).toEqual([
      ['measured', 'hand-dyed', 'washed', 'dye', false],
      ['label', 'plain', 'new', null, null],
      [null, null, 'never', 'drawn work', false],
    ])
  })

  it('may not be turned and have a reason why not', () => {
    const text = 'Cloth,Count,Size,May turn,One way because\nLinen,28,9 x 9 in,yes,stripe\nLinen,28,9 x 9 in,no,stripe\n'
    expect(errors('cloth', text)).toEqual([[2, 'May turn', 'unknown-word', 'yes']])
  })

  it('reads sizes in whatever unit they are written in', () => {
    const text =
      'Cloth;Count;Width;Height\nLinen;28;18 in;27"\nLinen;28;45,5 cm;70 cm\nLinen;28;1 1/2 in;12½\nLinen;28;1 yd;0.5 m\n'
    expect(drafts('cloth', text).map((draft) => [draft.widthUm, draft.heightUm])).toEqual([
      [18 * inch, 27 * inch],
      [455_000, 700_000],
      [1.5 * inch, 12.5 * inch],
      [36 * inch, 500_000],
    ])
    const [draft] = drafts('cloth', 'Fabric,Count,Size (cm)\nLinen,28,45 x 70\n')
    expect([draft?.widthUm, draft?.heightUm]).toEqual([450_000, 700_000])
  })

  it('reads counts by the inch and by ten centimetres, one way or both', () => {
    const text = 'Cloth,Count,Size\nLinen,28,18 x 27 in\nLinen,34 x 31,18 x 27 in\nLinen,110/10cm,18 x 27 in\n'
    expect(drafts('cloth', text).map((draft) => [draft.ends, draft.picks])).toEqual([
      [
        { threads: 28, perUm: inch },
        { threads: 28, perUm: inch },
      ],
      [
        { threads: 34, perUm: inch },
        { threads: 31, perUm: inch },
      ],
      [
        { threads: 110, perUm: 100_000 },
        { threads: 110, perUm: 100_000 },
      ],
    ])
    const [draft] = drafts('cloth', 'Cloth,Count (per 10 cm),Size\nLinen,110,18 x 27 in\n')
    expect(draft?.ends).toEqual({ threads: 110, perUm: 100_000 })
  })

  it('knows the weave from the word, else from the name, else assumes one and says so', () => {
    const checked = check('Cloth,Count,Size,Weave\nMarl,14,9 x 9 in,evenweave\nFine linen,18,9 x 9 in,\nMarl,14,9 x 9 in,\n', {
      kind: 'cloth',
    })
    expect(checked.rows.map((row) => (row.draft as DraftOf['cloth']).weave)).toEqual(['single', 'single', null])
    expect(checked.warnings).toMatchObject([{ rowNumber: 4, kind: 'weave-assumed', accepted: ['block'] }])
  })

  it('needs a size, in one cell or two', () => {
    expect(errors('cloth', 'Cloth,Count,Width,Height\nLinen,28,18,\nLinen,28,,\n')).toEqual([
      [2, 'Height', 'missing', ''],
      [3, 'Width', 'missing', ''],
      [3, 'Height', 'missing', ''],
    ])
    expect(errors('cloth', 'Cloth,Count,Size\nLinen,28,big\nLinen,lots,9 x 9\n')).toEqual([
      [2, 'Size', 'not-a-size', 'big'],
      [3, 'Count', 'not-a-count', 'lots'],
    ])
  })
})

describe('charts', () => {
  it('read sizes in stitches unless a unit says otherwise', () => {
    const text =
      'Chart,Size,Count\nA,140 x 98,28 over 2\nB,8 x 6 in,14\nC,84w x 84h,14\nD,20.5cm x 15cm,14\nE,"1,240 × 98 sts",14\n'
    expect(drafts('charts', text).map((draft) => draft.size)).toEqual([
      { kind: 'stitches', width: 140, height: 98 },
      { kind: 'measured', widthUm: 8 * inch, heightUm: 6 * inch },
      { kind: 'stitches', width: 84, height: 84 },
      { kind: 'measured', widthUm: 205_000, heightUm: 150_000 },
      { kind: 'stitches', width: 1_240, height: 98 },
    ])
    const byColumns = drafts('charts', 'Chart,Width,Height\nA,140,98\nB,8 in,6 in\n').map((draft) => draft.size.kind)
    expect(byColumns).toEqual(['stitches', 'measured'])
    expect(drafts('charts', 'Chart,Width (cm),Height (cm)\nA,20,15\n')[0]?.size).toEqual({
      kind: 'measured',
      widthUm: 200_000,
      heightUm: 150_000,
    })
  })

  it('read the advised count, and assume how many threads a stitch spans where it is not said', () => {
    const checked = check('Chart,Count,Weave\nA,28 over 2,\nB,110/10cm over 2,\nC,14,\nD,32,\nE,18,linen\n', { kind: 'charts' })
    expect(checked.rows.map((row) => (row.draft as DraftOf['charts']).advised)).toEqual([
      { count: { threads: 28, perUm: inch }, over: 2 },
      { count: { threads: 110, perUm: 100_000 }, over: 2 },
      { count: { threads: 14, perUm: inch }, over: 1 },
      { count: { threads: 32, perUm: inch }, over: 2 },
      { count: { threads: 18, perUm: inch }, over: 2 },
    ])
    expect(checked.warnings.map(({ rowNumber, kind }) => [rowNumber, kind])).toEqual(
      [4, 5, 6].map((row) => [row, 'over-assumed']),
    )
  })

  it('take the weave advised from the name of the cloth where no weave is said', () => {
    const text = 'Chart,Cloth,Weave\nA,Harrowmere linen,\nB,Pennow Aida,\nC,Ostravane,\nD,Harrowmere linen,aida\nE,,\n'
    expect(drafts('charts', text).map((draft) => (draft as DraftOf['charts']).weave)).toEqual([
      'single',
      'block',
      null,
      'block',
      null,
    ])
    const withoutColumn = drafts('charts', 'Chart,Cloth\nA,Harrowmere linen\n')
    expect(withoutColumn).toMatchObject([{ weave: 'single', cloth: 'Harrowmere linen' }])
  })

  it('part designers and themes at semicolons, and take the chart for the design when none is named', () => {
    const [draft] = drafts(
      'charts',
      'Chart,Designer,Season,Kind,Price,Bought\nNine Wrens,Tilda Quennell; Wilf Sarratt;,Winter; winter,PDF,"3,60 €",1.3.2026\n',
    )
    expect(draft).toMatchObject({
      design: 'Nine Wrens',
      designers: ['Tilda Quennell', 'Wilf Sarratt'],
      seasons: ['Winter'],
      kind: 'file',
      priceMinor: 360,
      boughtOn: '2026-03-01',
    })
  })

  it('warn of a date that could be two, and take the month first when told', () => {
    const text = 'Chart,Bought\nNine Wrens,1/3/2026\n'
    expect(check(text, { kind: 'charts' }).warnings).toMatchObject([{ kind: 'date-could-be-two', accepted: ['2026-03-01'] }])
    expect(drafts('charts', text, { mapping: { monthFirst: true } })[0]?.boughtOn).toBe('2026-01-03')
  })

  it('refuse half a size and a size in two kinds of unit', () => {
    expect(errors('charts', 'Chart,Width,Height\nA,140,\nB,140,8 in\n')).toEqual([
      [2, 'Height', 'half-a-size', ''],
      [3, 'Height', 'mixed-units', '8 in'],
    ])
  })
})

describe('the allowance of a chart', () => {
  const allowances = (...written: string[]) =>
    drafts('charts', `Chart;Allowance\n${written.map((text, at) => `Chart ${at};${text}`).join('\n')}\n`).map(
      (draft) => draft.allowance,
    )

  it('is a profile by name, a factor of its own, or nothing', () =>
    expect(allowances('Solid blocks', 'ordinary', 'scattered', 'solid', '1.45', '1,3', '')).toEqual([
      { profile: 'solid blocks' },
      { profile: 'ordinary' },
      { profile: 'scattered' },
      { profile: 'solid blocks' },
      { profile: 'own', hundredths: 145 },
      { profile: 'own', hundredths: 130 },
      null,
    ]))

  it('is refused where it is neither', () =>
    expect(errors('charts', 'Chart;Allowance\nNine Wrens;generous\nWick Lane;15\n')).toEqual([
      [2, 'Allowance', 'unknown-word', 'generous'],
      [3, 'Allowance', 'out-of-range', '15'],
    ]))
})

describe('lists', () => {
  it('count satin in units of throw, and eyelets', () =>
    expect(drafts('lists', 'Chart,Maker,Code,Satin stitch,Eyelets\nNine Wrens,Larkholm,0311,60,4\n')[0]?.tally).toEqual({
      ...{ satin: 60, eyelet: 4 },
    }))

  it('read a blend as one line, what is given once serving all its threads', () => {
    const text =
      'Chart,Symbol,Maker,Line,Code,Strands,Skeins\nNine Wrens,o,Larkholm,Stranded,0742+0087,1+1,0.3+0.6\nNine Wrens,x,Larkholm + Quillwater,Stranded+Filament,0742+12,2+1,1/3\n'
    expect(drafts('lists', text).map((draft) => draft.threads)).toEqual([
      [
        { maker: 'Larkholm', line: 'Stranded', code: '0742', name: null, strands: 1, statedHundredths: 30 },
        { maker: 'Larkholm', line: 'Stranded', code: '0087', name: null, strands: 1, statedHundredths: 60 },
      ],
      [
        { maker: 'Larkholm', line: 'Stranded', code: '0742', name: null, strands: 2, statedHundredths: 34 },
        { maker: 'Quillwater', line: 'Filament', code: '12', name: null, strands: 1, statedHundredths: 34 },
      ],
    ])
  })

  it('read stitch counts by type, and none as none', () => {
    const text =
      'Chart,Maker,Code,Strands,Full,Backstitch,Knots,Knots two wraps\nNine Wrens,Larkholm,0017,2,"1,240",120,,3\nNine Wrens,Larkholm,0018,2,,0,,\n'
    expect(drafts('lists', text).map((draft) => draft.tally)).toEqual([{ full: 1_240, backstitch: 120, knotTwoWrap: 3 }, null])
  })

  it('assume two strands of one thread and one of each in a blend, and say so', () => {
    const checked = check('Chart,Maker,Code,Strands\nNine Wrens,Larkholm,0017,\nNine Wrens,Larkholm,0017+0018,\n', {
      kind: 'lists',
    })
    expect(checked.rows.map((row) => (row.draft as DraftOf['lists']).threads.map((thread) => thread.strands))).toEqual([
      [2],
      [1, 1],
    ])
    expect(checked.warnings.every((warning) => warning.kind === 'strands-assumed')).toBe(true)
  })

  it('refuse a blend whose parts do not match', () => {
    expect(errors('lists', 'Chart,Maker,Code,Strands\nNine Wrens,Larkholm,1+2,1+1+1\nNine Wrens,Larkholm,1+,1\n')).toEqual([
      [2, 'Strands', 'blend-parts-differ', '1+1+1'],
      [3, 'Code', 'blend-parts-differ', '1+'],
    ])
  })
})

describe('projects', () => {
  it('know states by other words, and refuse an end before the beginning', () => {
    const text =
      'Design,Status,Started,Finished,Hours\nNine Wrens,WIP,2026-01-02,,"12,5"\nWick Lane,done,2026-05-01,2026-04-01,\n'
    const checked = check(text, { kind: 'projects' })
    expect(checked.rows[0]?.draft).toMatchObject({ status: 'stitching', startedOn: '2026-01-02', hoursTenths: 125 })
    expect(checked.errors).toMatchObject([
      { rowNumber: 3, column: 'Finished', kind: 'dates-out-of-order', accepted: ['2026-05-01'] },
    ])
  })
})

describe('projects of several kits', () => {
  it('say how many are made and how many spares beside them', () => {
    const checked = check('Design,How many,Spares\nSeven Lanterns,12,1\nNine Wrens,,\nWick Lane,0,\nWick Lane,two,\n', {
      kind: 'projects',
    })
    expect(checked.rows.map(({ draft }) => draft)).toMatchObject([
      { kits: 12, spares: 1 },
      { kits: null, spares: null },
    ])
    expect(checked.errors.map(({ rowNumber, column, kind }) => [rowNumber, column, kind])).toEqual([
      [4, 'How many', 'out-of-range'],
      [5, 'How many', 'not-a-whole-number'],
    ])
  })
})

describe('notions', () => {
  it.each([
    ['Embroidery hoops', 'hoop'],
    ['needle-minder', 'needle minder'],
    ['Ciseaux', 'scissors'],
    ['Sticknadeln', 'needle'],
    ['Q-frame', 'frame'],
    ['Seed beads', 'beads'],
    ['Stretcher bars', 'frame'],
  ])('know what %s are', (said, kind) => {
    expect(drafts('notions', `Kind,Name\n${said},Whatever\n`)).toMatchObject([{ kind }])
  })

  it('are told by their names where no kind is said, and refused where one is said that is none', () => {
    const text = 'Kind,Name,Size\n,Beech hoop,10 in\n,Needle case,\n,Round thing,\nwozzle,Beech hoop,\nhoop,,8 in\n'
    const read = check(text, { kind: 'notions' }).rows.map(({ draft }) => draft as DraftOf['notions'])
    expect(read.map(({ kind, size }) => [kind, size])).toEqual([
      ['hoop', '10 in'],
      ['bag', null],
      [null, null],
    ])
    expect(errors('notions', text)).toEqual([
      [5, 'Kind', 'unknown-word', 'wozzle'],
      [6, 'Name', 'missing', ''],
    ])
  })

  it('have a number, a pack, a minimum and a price, each refused where it cannot be one', () => {
    const head = 'Kind,Name,Size,How many,Pack of,Minimum,Price\n'
    expect(drafts('notions', `${head}needle,Tapestry needles,size 26,12,6,6,£1.80\n`)).toMatchObject([
      { size: 'size 26', count: 12, packOf: 6, minimum: 6, priceMinor: 180 },
    ])
    expect(errors('notions', `${head}needle,Needles,,some,0,-1,dear\n`)).toEqual([
      [2, 'How many', 'not-a-whole-number', 'some'],
      [2, 'Pack of', 'out-of-range', '0'],
      [2, 'Minimum', 'not-a-whole-number', '-1'],
      [2, 'Price', 'not-a-price', 'dear'],
    ])
  })
})

describe('any row', () => {
  it('holds hostile text as text, and points out what looks like a formula', () => {
    const checked = check('Chart,Note\n"=HYPERLINK(""x"")",<script>alert(1)</script>\n\'=1+1,x\n', { kind: 'charts' })
    expect(checked.rows.map((row) => row.draft)).toMatchObject([
      { chart: '=HYPERLINK("x")', note: '<script>alert(1)</script>' },
      { chart: '=1+1' },
    ])
    expect(warnings(checked).map(([, kind]) => kind)).toContain('cell-looks-like-formula')
  })

  it('has the key of another only when it says the same, however it is written', () => {
    const keys = (text: string) => check(text, { kind: 'threads' }).rows.map((row) => row.rowKey)
    const [plain] = keys('Maker,Code,Put-up,Skeins\nLarkholm,0017,8 m,2\n')
    expect(keys('Hersteller;Farbnummer;Anzahl;Lauflänge\nLarkholm;0017;2,0;800 cm\n')).toEqual([plain])
    expect(keys('Maker,Code,Put-up,Skeins\nLarkholm,17,8 m,2\n')).not.toEqual([plain])
    expect(check('Maker,Code,Put-up,Skeins\nLarkholm,0017,8 m,2\n', { owner: 'Petra Lisle' }).rows[0]?.rowKey).not.toBe(plain)
    const twice = keys('Maker,Code,Put-up,Skeins\nLarkholm,0017,8 m,2\nLarkholm,0017,8 m,2\n')
    expect(twice[0]).toBe(plain)
    expect(twice[1]).not.toBe(plain)
  })
})
