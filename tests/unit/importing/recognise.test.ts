import { describe, expect, it } from 'vitest'
import { type ImportKind, importKinds, listFields } from '#lib/importing/fields'
import { mappingSchema, shapeKey } from '#lib/importing/mapping'
import { recogniseKind, suggestMapping } from '#lib/importing/recognise'
import { tableOf } from './bring-in'

function suggest(text: string) {
  const table = tableOf(text)
  const sample = table.rows.map((row) => row.cells)
  const { kind, confidence } = recogniseKind(table.headers, sample)
  if (kind === null) return { kind, confidence, by: {}, mapping: null }
  const mapping = suggestMapping(kind, table.headers, sample)
  const by = Object.fromEntries(
    Object.entries(mapping.columns).flatMap(([field, index]) => (index === null ? [] : [[field, table.headers[index]]])),
  )
  return { kind, confidence, by, mapping }
}

describe('the headers this project writes itself', () => {
  for (const kind of importKinds) {
    it(`are known for ${kind}, each for its own field`, () => {
      const headers = listFields(kind).map((field) => field.label)
      expect(recogniseKind(headers, [])).toMatchObject({ kind })
      // A chart has a kind, a name, a size and a price as well: by headings alone a list of notions could nearly be one.
      expect(recogniseKind(headers, []).confidence).toBeGreaterThan(kind === 'notions' ? 0.4 : 0.9)
      const { columns } = suggestMapping(kind, headers, [])
      expect(listFields(kind).map(({ name }) => headers[columns[name] as number])).toEqual(headers)
    })
  }
})

describe("a person's own headers", () => {
  const files: [string, ImportKind, string, Record<string, string>][] = [
    [
      'a plain thread sheet',
      'threads',
      'Brand;Colour no.;Description;Qty;Drawer\nLarkholm;0017;Rust;2;T2.1\nLarkholm;0018;Moss;1,5;T2.1\n',
      { maker: 'Brand', code: 'Colour no.', name: 'Description', skeins: 'Qty', place: 'Drawer' },
    ],
    [
      'a German thread sheet',
      'threads',
      'Hersteller;Farbnummer;Farbe;Anzahl;Schublade\nLarkholm;0017;Rost;2;T2\n',
      { maker: 'Hersteller', code: 'Farbnummer', name: 'Farbe', skeins: 'Anzahl', place: 'Schublade' },
    ],
    [
      'a French thread sheet',
      'threads',
      'Marque;Numéro;Couleur;Quantité;Tiroir\nLarkholm;0017;rouille;2;T2\n',
      { maker: 'Marque', code: 'Numéro', name: 'Couleur', skeins: 'Quantité', place: 'Tiroir' },
    ],
    [
      'a chart sheet',
      'charts',
      'Title,Author,Theme,Stitches,Fabric count,Box,Type\nRook Hill in Snow,Saskia Thrupp,Winter,140 x 98,28 over 2,Box 3,leaflet\n',
      {
        chart: 'Title',
        designer: 'Author',
        subject: 'Theme',
        size: 'Stitches',
        count: 'Fabric count',
        place: 'Box',
        kind: 'Type',
      },
    ],
    [
      'a key typed from a leaflet',
      'lists',
      'Pattern,Symbol,Brand,Colour,Colour name,Strands,Stitch count\nNine Wrens,x,Larkholm,0017,Rust,2,320\n',
      {
        chart: 'Pattern',
        symbol: 'Symbol',
        maker: 'Brand',
        code: 'Colour',
        name: 'Colour name',
        strands: 'Strands',
        full: 'Stitch count',
      },
    ],
    [
      'a cloth sheet',
      'cloth',
      'Type,Thread count,Size,Shade,Location\nAida,14,18 x 27,White,C1\n',
      { cloth: 'Type', count: 'Thread count', size: 'Size', colour: 'Shade', place: 'Location' },
    ],
    [
      'a list of works under way',
      'projects',
      'Project,Status,Start date,Finish date,Hours,Fabric\nNine Wrens,WIP,2026-01-02,,12,C-1\n',
      { design: 'Project', status: 'Status', started: 'Start date', finished: 'Finish date', hours: 'Hours', cloth: 'Fabric' },
    ],
    [
      'a list of drawers',
      'places',
      'Drawer,Type,In,What\nT1,drawer,Room,greens\n',
      { label: 'Drawer', kind: 'Type', inside: 'In', name: 'What' },
    ],
    [
      'a list of needles and hoops',
      'notions',
      'Item,Type,Size,Qty,Per pack,Reorder at,Cost,Where kept,Remarks\nTapestry needles,Needles,26,12,6,4,1.80,Tin 3,blunt\nBeech ring,Embroidery hoop,10 in,1,,,9.50,Shelf,\n',
      {
        ...{ name: 'Item', kind: 'Type', size: 'Size', count: 'Qty', packOf: 'Per pack', minimum: 'Reorder at' },
        ...{ price: 'Cost', place: 'Where kept', note: 'Remarks' },
      },
    ],
    [
      'a German list of tools, its kinds told by their names',
      'notions',
      'Bezeichnung;Größe;Anzahl;Mindestbestand;Lagerort\nSticknadeln;26;12;6;Dose 3\nStickrahmen;20 cm;1;;Regal\n',
      { name: 'Bezeichnung', size: 'Größe', count: 'Anzahl', minimum: 'Mindestbestand', place: 'Lagerort' },
    ],
    [
      'a French list of tools',
      'notions',
      'Type;Désignation;Taille;Quantité;Prix;Rangement\nciseaux;Ciseaux à broder;10 cm;2;12,50;Tiroir 4\n',
      { kind: 'Type', name: 'Désignation', size: 'Taille', count: 'Quantité', price: 'Prix', place: 'Rangement' },
    ],
    [
      'charts that have a kind and a name too',
      'charts',
      'Name,Kind,Size,Quantity,Price,Place\nNine Wrens,leaflet,84 x 84,1,5.50,R1\n',
      { chart: 'Name', kind: 'Kind', copies: 'Quantity' },
    ],
    [
      'headers with a slip of the key',
      'threads',
      'Makr,Code,Skiens\nLarkholm,0017,2\n',
      { maker: 'Makr', code: 'Code', skeins: 'Skiens' },
    ],
  ]
  for (const [what, kind, text, by] of files) {
    it(`are taken as meant in ${what}`, () => {
      expect(suggest(text)).toMatchObject({ kind, by })
    })
  }

  it('are judged by their values where a word could mean two things', () => {
    expect(suggest('Maker,Colour,Skeins\nLarkholm,0017,2\n').by).toMatchObject({ code: 'Colour' })
    expect(suggest('Maker,Code,Colour\nLarkholm,0017,#a04020\n').by).toMatchObject({ colour: 'Colour' })
    expect(suggest('Maker,Code,Colour\nLarkholm,0017,Rust\n').by).toMatchObject({ name: 'Colour' })
  })

  it('make a title of a design one of the chart too, and a name a code, where there is no other', () => {
    expect(suggest('Design,Designer,Width,Height\nNine Wrens,Tilda Quennell,84,84\n').by).toMatchObject({ chart: 'Design' })
    expect(suggest('Maker,Colour name,Skeins\nOddny Loft,Tarn Blue,2\n').by).toMatchObject({ code: 'Colour name' })
  })

  it('are not forced into a kind', () => {
    expect(suggest('Wozzle,Grue\n1,2\n')).toMatchObject({ kind: null, confidence: 0 })
  })
})

describe('what goes with the columns', () => {
  it('is the unit a header names', () => {
    const units = (headers: string[]) => suggestMapping('cloth', headers, []).units
    expect(units(['Cloth', 'Count', 'Width (cm)', 'Height in inches'])).toEqual({ count: 'per inch', width: 'cm', height: 'in' })
    expect(units(['Cloth', 'Count (per 10 cm)', 'Width mm', 'Height "'])).toEqual({
      count: 'per 10 cm',
      width: 'mm',
      height: 'in',
    })
    expect(suggestMapping('threads', ['Maker', 'Code', 'Put-up yd'], []).units).toEqual({ putUp: 'yd' })
    expect(suggestMapping('charts', ['Chart', 'Width (stitches)'], []).units).toEqual({ width: 'stitches' })
  })

  it('is centimetres for cloth too wide for inches, and threads per 10 cm for counts too fine', () => {
    const { units } = suggestMapping('cloth', ['Cloth', 'Count', 'Width', 'Height'], [['Linen', '110', '45', '70']])
    expect(units).toEqual({ count: 'per 10 cm', width: 'cm', height: 'cm' })
  })

  it('is a decimal comma and a month that comes first, when the cells say so', () => {
    expect(suggest('Maker;Code;Skeins\nLarkholm;0017;1,5\n').mapping).toMatchObject({ decimalComma: true })
    expect(suggest('Maker,Code,Skeins\nLarkholm,0017,1.5\n').mapping?.decimalComma).toBeUndefined()
    const dates = (day: string) => suggest(`Project,Status,Started\nNine Wrens,WIP,${day}\n`).mapping?.monthFirst
    expect([dates('3/25/2026'), dates('25/3/2026'), dates('3/4/2026')]).toEqual([true, undefined, undefined])
  })

  it('is remembered by kind and headers, their case and accents apart', () => {
    expect(shapeKey('threads', ['Maker', 'Größe'])).toBe(shapeKey('threads', ['MAKER ', 'Grösse'.replace('ss', 'ß')]))
    expect(shapeKey('threads', ['Maker', 'Code'])).not.toBe(shapeKey('lists', ['Maker', 'Code']))
    expect(shapeKey('threads', ['Maker', 'Code'])).not.toBe(shapeKey('threads', ['Code', 'Maker']))
  })

  it('is refused when it names fields or units that do not exist', () => {
    const mapping = suggestMapping('cloth', ['Cloth', 'Count', 'Width'], [])
    expect(mappingSchema.safeParse(mapping).success).toBe(true)
    expect(mappingSchema.safeParse({ ...mapping, columns: { wozzle: 1 } }).success).toBe(false)
    expect(mappingSchema.safeParse({ ...mapping, units: { width: 'stitches' } }).success).toBe(false)
    expect(mappingSchema.safeParse({ ...mapping, defaults: { constructor: 'x' } }).success).toBe(false)
  })
})
