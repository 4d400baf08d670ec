import { createElement, type ReactNode } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { CoverBar } from '#trade/cover-bar'
import { FillGauge } from '#trade/fill-gauge'
import { KeySymbol } from '#trade/key-symbol'
import { OwnerSwitch } from '#trade/owner-switch'
import { PlaceLabel } from '#trade/place-label'
import { Tally, TrayWord, trayStates, trayWords } from '#trade/tray'
import { CheckField, NumberField, SelectField, TextField } from '#ui/field'
import { Ledger } from '#ui/ledger'
import { Sum } from '#ui/sum'
import { KeyEditor } from '../../../app/_charts/key-editor'
import { FormContext } from '../../../app/_ui/form-context'

const draw = (element: ReactNode) => renderToStaticMarkup(element)
const noAction = async () => {}

describe('fields', () => {
  it('tie hint and error to the control', () => {
    const html = draw(
      createElement(TextField, { name: 'title', label: 'Title', hint: 'As on the leaflet.', error: 'Give a title.' }),
    )
    const id = /<input[^>]* id="([^"]+)"/.exec(html)?.[1]
    expect(html).toContain(`for="${id}"`)
    expect(html).toContain(`aria-describedby="${id}-error ${id}-hint"`)
    expect(html).toContain('aria-invalid="true"')
    expect(html).toContain(`id="${id}-error">Give a title.`)
  })

  it('say nothing of an error where there is none', () => {
    const html = draw(createElement(TextField, { name: 'title', label: 'Title' }))
    expect(html).not.toContain('aria-invalid')
    expect(html).not.toContain('aria-describedby')
  })

  it('offer the same names in every line of a key from one list each', () => {
    const layout = Array.from({ length: 100 }, (_, key) => ({ key: String(key + 1), threadKeys: ['0'] }))
    const html = draw(
      createElement(KeyEditor, { layout, texts: {}, makerNames: ['Larkholm', 'Oddny Loft'], lineNames: ['Stranded Cotton'] }),
    )
    const lists = [...html.matchAll(/<datalist id="([^"]+)"/g)].map(([, id]) => id)
    expect(lists).toHaveLength(2)
    for (const id of lists) expect(html.split(` list="${id}"`)).toHaveLength(101)
    expect(html.split('value="Oddny Loft"')).toHaveLength(2)
  })

  it('keep a figure as typed', () => {
    const html = draw(createElement(NumberField, { name: 'width', label: 'Width', defaultValue: '12½', unit: 'in' }))
    expect(html).toContain('type="text"')
    expect(html).toContain('value="12½"')
  })

  it('show what was sent and what was wrong with it, from the form around them', () => {
    const value = {
      formId: 'f',
      errors: { title: ['Too long.'] },
      values: { title: 'Nine Wrens', season: 'winter' },
      isAnswered: true,
      isPending: false,
    }
    const options = [
      { value: 'winter', label: 'Winter' },
      { value: 'spring', label: 'Spring' },
    ]
    const html = draw(
      createElement(
        FormContext,
        { value },
        createElement(TextField, { name: 'title', label: 'Title', defaultValue: 'Wick Lane' }),
        createElement(SelectField, { name: 'season', label: 'Season', options, defaultValue: 'spring' }),
        createElement(CheckField, { name: 'owned', label: 'Owned', defaultChecked: true }),
      ),
    )
    expect(html).toContain('value="Nine Wrens"')
    expect(html).toContain('Too long.')
    expect(html).toContain('<option value="winter" selected="">')
    expect(html).not.toContain('checked')
  })
})

describe('Ledger', () => {
  const columns = [
    { key: 'name', head: 'Thread', cell: (row: { name: string }) => row.name, phone: 'lead' as const },
    { key: 'count', head: 'Free', cell: () => '2', isNumeric: true, phone: 'labelled' as const },
  ]

  it('says its roles outright, so that it stays a table when its rows are stacked', () => {
    const html = draw(
      createElement(Ledger<{ name: string }>, {
        caption: 'Threads',
        columns,
        rows: [{ name: 'Rook' }],
        rowKey: (row) => row.name,
      }),
    )
    for (const role of ['table', 'rowgroup', 'row', 'columnheader', 'cell']) expect(html).toContain(`role="${role}"`)
  })

  it('heads each group, and puts the link of a row on its lead cell', () => {
    const html = draw(
      createElement(Ledger<{ name: string }>, {
        caption: 'Threads',
        columns,
        groups: [{ key: 'now', title: 'Stitchable now', note: '7 charts', rows: [{ name: 'Rook' }] }],
        rowKey: (row) => row.name,
        rowHref: () => '/threads/1',
      }),
    )
    expect(html).toMatch(/<th role="rowheader"[^>]*>Stitchable now<span>7 charts/)
    expect(html).toMatch(/<a[^>]*href="\/threads\/1"[^>]*>Rook<\/a>/)
  })

  it('ties what unfolds to nothing where a row has nothing to unfold', () => {
    const html = draw(
      createElement(Ledger<{ name: string }>, {
        caption: 'Threads',
        columns,
        rows: [{ name: 'Rook' }, { name: 'Haw' }],
        rowKey: (row) => row.name,
        under: (row) => (row.name === 'Haw' ? 'the sum' : null),
      }),
    )
    expect(html.match(/data-unfolded/g)).toHaveLength(1)
  })
})

describe('Sum', () => {
  it('leaves the middle column out where no line says how', () => {
    const html = draw(
      createElement(Sum, {
        title: 'Free',
        rows: [
          { label: 'Owned', figure: '6' },
          { label: 'Free', figure: '1', kind: 'end' },
        ],
      }),
    )
    expect(html.match(/<td/g)).toHaveLength(2)
  })
})

describe('drawings', () => {
  it('never show a state without its word', () => {
    for (const state of trayStates) {
      expect(draw(createElement(TrayWord, { state }))).toContain(trayWords[state].replace("'", '&#x27;'))
      expect(draw(createElement(Tally, { label: 'All', items: [{ key: 'a', state, name: '0311' }] }))).toContain(
        trayWords[state].replace("'", '&#x27;'),
      )
    }
  })

  it('draw every state differently', () => {
    const drawn = trayStates.map((state) => /<svg.*?<\/svg>/.exec(draw(createElement(TrayWord, { state })))?.[0])
    expect(new Set(drawn).size).toBe(trayStates.length)
  })

  it('keep madder for what needs doing', () => {
    const doing = trayStates.filter((state) => draw(createElement(TrayWord, { state })).includes('data-do'))
    expect(doing).toEqual(['none', 'short', 'lots'])
  })

  it('say where a thing lives when it is away from home', () => {
    const html = draw(createElement(PlaceLabel, { label: 'K-07', livesIn: 'T2.1-14' }))
    expect(html).toContain('data-away')
    expect(html).toContain('lives in T2.1-14')
  })

  it('do not show thread wanting where it lies elsewhere', () => {
    const bar = { need: 5, free: 0, scale: { full: 10, step: 2 }, hexes: [], label: 'need 5 m, free none' }
    expect(draw(createElement(CoverBar, bar))).toContain('--madder')
    expect(draw(createElement(CoverBar, { ...bar, isWanting: false }))).not.toContain('--madder')
  })

  it('cut a long symbol short but say it whole', () => {
    const html = draw(createElement(KeySymbol, { symbol: 'toolong' }))
    expect(html).toContain('aria-label="symbol toolong"')
    expect(html).toContain('too…')
  })

  it('say that a place holds more than it should', () => {
    expect(draw(createElement(FillGauge, { here: 9, capacity: 8 }))).toContain('1 more than it holds')
  })
})

describe('OwnerSwitch', () => {
  const owners = [
    { id: 'a', name: 'The Oxmarsh Needle Room' },
    { id: 'b', name: 'Hanne Drewitt' },
  ]

  it('has nothing to switch with one owner', () => {
    expect(draw(createElement(OwnerSwitch, { owners: owners.slice(0, 1), chosen: ['a'], action: noAction }))).not.toContain(
      '<select',
    )
  })

  it('shows the one chosen, or everyone', () => {
    expect(draw(createElement(OwnerSwitch, { owners, chosen: ['b'], action: noAction }))).toContain(
      '<option value="b" selected="">',
    )
    expect(draw(createElement(OwnerSwitch, { owners, chosen: ['a', 'b'], action: noAction }))).toContain(
      '<option value="everyone" selected="">',
    )
  })
})
