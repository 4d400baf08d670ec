import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { importKinds, listFields } from '#lib/importing/fields'
import type { Mapping } from '#lib/importing/mapping'
import { separators } from '#lib/importing/sniff-separator'
import { columnBox, fillBox, unitBox } from '../../../app/bring-in/boxes'
import { errandQuery, parseChoices, parseErrand, previewHref, writeChoices } from '../../../app/bring-in/choices'
import { parseMappingForm } from '../../../app/bring-in/schema'

const aMapping: fc.Arbitrary<Mapping> = fc.constantFrom(...importKinds).chain((kind) => {
  const fields = listFields(kind)
  const names = fc.subarray(fields.map(({ name }) => name))
  return fc
    .record({
      read: names,
      firstColumn: fc.integer({ min: 0, max: 400 }),
      unitTurn: fc.nat(8),
      said: names,
      word: fc.string({ minLength: 1, maxLength: 40 }),
      decimalComma: fc.boolean(),
      monthFirst: fc.boolean(),
    })
    .map(({ read, firstColumn, unitTurn, said, word, decimalComma, monthFirst }) => ({
      kind,
      columns: Object.fromEntries(read.map((name, index) => [name, firstColumn + index])),
      units: Object.fromEntries(
        fields.flatMap(({ name, units }) => (units.length > 0 ? [[name, units[unitTurn % units.length]]] : [])),
      ),
      defaults: Object.fromEntries(said.map((name) => [name, word])),
      decimalComma,
      monthFirst,
    })) as fc.Arbitrary<Mapping>
})

describe('choices', () => {
  it('come back from an address as they went into it', () => {
    fc.assert(
      fc.property(aMapping, fc.constantFrom(...separators), (mapping, separator) => {
        const choices = { kind: mapping.kind, separator, mapping }
        const href = previewHref('0190-a', choices, [{ stagedId: 'b-2', fileName: 'More & more; "threads".csv' }])
        const search = Object.fromEntries(new URL(href, 'http://larder.test').searchParams)
        expect(parseErrand(search)).toEqual({
          stagedId: null,
          choices,
          waiting: [{ stagedId: 'b-2', fileName: 'More & more; "threads".csv' }],
        })
      }),
      { seed: 20260907, numRuns: 200 },
    )
  })

  it('leave out the fields a file has no column for', () => {
    const mapping: Mapping = { kind: 'places', columns: { label: 2, name: null }, units: {}, defaults: {} }
    expect(parseChoices(writeChoices({ kind: 'places', mapping })).mapping?.columns).toEqual({ label: 2 })
  })

  it('are no choice at all where they cannot be read', () => {
    for (const text of [
      undefined,
      '',
      'nonsense',
      '[]',
      '{"kind":"recipes"}',
      '{"kind":"cloth","mapping":{"kind":"cloth","columns":{"code":1},"units":{},"defaults":{}}}',
      '{"kind":"cloth","mapping":{"kind":"places","columns":{"label":1},"units":{},"defaults":{}}}',
      '{"kind":"places","mapping":{"kind":"places","columns":{"label":-1},"units":{},"defaults":{}}}',
    ])
      expect(parseChoices(text)).toEqual({})
  })

  it('keep no address that leads elsewhere', () => {
    expect(parseErrand({ from: '../settings', next: '[["../x","x.csv"]]' })).toEqual({ stagedId: null, choices: {}, waiting: [] })
    expect(errandQuery({ stagedId: null, choices: {}, waiting: [] })).toBe('')
  })
})

describe('a mapping form', () => {
  const sent = {
    kind: 'cloth',
    separator: ';',
    [columnBox('cloth')]: '0',
    [columnBox('count')]: '3',
    [columnBox('size')]: '4',
    [unitBox('size')]: 'cm',
    [unitBox('width')]: 'in',
    [columnBox('place')]: '',
    [fillBox('owner')]: ' Hanne Drewitt ',
    decimalComma: 'yes',
  }

  it('becomes the choices it shows', () => {
    expect(parseMappingForm(sent)).toEqual({
      ok: true,
      choices: {
        kind: 'cloth',
        separator: ';',
        mapping: {
          kind: 'cloth',
          columns: { cloth: 0, count: 3, size: 4 },
          // Of a count that says nothing, the first unit; of a width that is read from no column, none.
          units: { size: 'cm', count: 'per inch' },
          defaults: { owner: 'Hanne Drewitt' },
          decimalComma: true,
          monthFirst: false,
        },
      },
    })
  })

  it('says at its boxes what is still needed', () => {
    const { [columnBox('count')]: _, [fillBox('owner')]: __, ...less } = sent
    expect(parseMappingForm(less)).toEqual({
      ok: false,
      fieldErrors: {
        [columnBox('count')]: ['Count is needed: say which column holds it.'],
        [fillBox('owner')]: ['Say whose they are.'],
      },
    })
  })

  it('takes one maker for all rows instead of a column', () => {
    const threads = { kind: 'threads', separator: ',', [columnBox('code')]: '0', [fillBox('owner')]: 'Hanne Drewitt' }
    expect(parseMappingForm(threads)).toMatchObject({ ok: false })
    expect(parseMappingForm({ ...threads, [fillBox('maker')]: 'Larkholm' })).toMatchObject({
      ok: true,
      choices: { mapping: { defaults: { owner: 'Hanne Drewitt', maker: 'Larkholm' } } },
    })
  })

  it('refuses columns and units no form of ours offers', () => {
    expect(parseMappingForm({ ...sent, [columnBox('count')]: 'x' })).toMatchObject({ ok: false })
    expect(parseMappingForm({ ...sent, [unitBox('size')]: 'furlongs' })).toMatchObject({ ok: false })
    expect(parseMappingForm({ ...sent, kind: 'recipes' })).toMatchObject({ ok: false })
  })
})
