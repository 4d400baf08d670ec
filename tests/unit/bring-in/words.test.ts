import { describe, expect, it } from 'vitest'
import type { HowFound, ImportRefused } from '#lib/db/importing/import-service'
import { type ImportKind, listFields } from '#lib/importing/fields'
import type { RowError, RowErrorKind, RowWarning, RowWarningKind } from '#lib/importing/row-error'
import { importedNouns } from '#lib/importing/snapshot'
import { gatherRows } from '../../../app/bring-in/gather-rows'
import { describeImportRefusal } from '../../../app/bring-in/refusal-words'
import { describeFault, describeRows } from '../../../app/bring-in/row-words'
import { describeWarning } from '../../../app/bring-in/warning-words'
import { countedNoun, describeCounts, describeLeft, describeNothingToDo, gatherLeft } from '../../../app/bring-in/words'

/** By kind: where it comes up, what was written, what would be accepted. The keys are all there are, or it does not compile. */
const errors: Record<RowErrorKind, { in: ImportKind; field: string | null; raw: string; accepted?: string[] }> = {
  'unclosed-quote': { in: 'charts', field: null, raw: '"Rook Hill' },
  'stray-quote': { in: 'charts', field: null, raw: 'a "b' },
  'more-cells-than-headers': { in: 'charts', field: null, raw: 'a,b,c' },
  'cell-too-long': { in: 'charts', field: null, raw: 'a'.repeat(200) },
  missing: { in: 'threads', field: 'code', raw: '' },
  'not-a-number': { in: 'threads', field: 'skeins', raw: 'two' },
  'not-a-whole-number': { in: 'places', field: 'capacity', raw: '1.5' },
  'out-of-range': { in: 'charts', field: 'width', raw: '90000', accepted: ['1', '10000'] },
  'unknown-word': { in: 'places', field: 'kind', raw: 'tray', accepted: ['room', 'cabinet'] },
  'not-yes-or-no': { in: 'cloth', field: 'squared', raw: 'perhaps', accepted: ['yes', 'no'] },
  'not-a-thread-length': { in: 'threads', field: 'putUp', raw: 'long', accepted: ['8 m', '5 yd'] },
  'not-a-cloth-length': { in: 'cloth', field: 'width', raw: 'wide', accepted: ['18 in'] },
  'not-a-size': { in: 'charts', field: 'size', raw: 'big', accepted: ['140 x 98'] },
  'not-a-count': { in: 'cloth', field: 'count', raw: 'fine', accepted: ['28', '34 x 31'] },
  'not-a-part': { in: 'threads', field: 'part', raw: 'lots', accepted: ['2.5 m', '1/2'] },
  'not-a-date': { in: 'projects', field: 'started', raw: 'spring', accepted: ['2026-03-01'] },
  'not-a-price': { in: 'charts', field: 'price', raw: 'dear', accepted: ['3.60'] },
  'not-a-colour': { in: 'threads', field: 'colour', raw: 'reddish', accepted: ['#a1b2c3'] },
  'not-a-thread': { in: 'threads', field: 'standsInFor', raw: '0311', accepted: ['Maker | Line | Code'] },
  'too-long': { in: 'threads', field: 'name', raw: 'a'.repeat(300), accepted: ['300'] },
  'half-a-size': { in: 'charts', field: 'height', raw: '' },
  'half-a-colour': { in: 'cloth', field: 'b', raw: '' },
  'mixed-units': { in: 'charts', field: 'height', raw: '8 in' },
  'blend-parts-differ': { in: 'lists', field: 'strands', raw: '1+1+1', accepted: ['2'] },
  'part-given-twice': { in: 'threads', field: 'part', raw: '1.5 + 2 m' },
  'dates-out-of-order': { in: 'projects', field: 'finished', raw: '2026-01-01', accepted: ['2026-03-01'] },
  'unknown-design': { in: 'lists', field: 'chart', raw: 'Rook Hil', accepted: ['Rook Hill in Snow'] },
  'which-design': { in: 'lists', field: 'design', raw: 'The Kitchen Year', accepted: ['Strawberry Bowl', 'Copper Kettle'] },
  'which-chart': { in: 'charts', field: 'chart', raw: 'Kettle', accepted: ['leaflet', 'kit'] },
  'unknown-list': { in: 'projects', field: 'list', raw: 'Silk list', accepted: ['Printed list'] },
  'unknown-cloth': { in: 'projects', field: 'cloth', raw: 'L-99', accepted: [] },
  'which-line': { in: 'lists', field: 'line', raw: '0311', accepted: ['Stranded Cotton', 'Pearl'] },
  'inside-itself': { in: 'places', field: 'inside', raw: 'T2' },
  'repeated-label': { in: 'cloth', field: 'label', raw: 'A-01', accepted: ['9'] },
}

const warnings: Record<RowWarningKind, { in: ImportKind; field: string | null; raw: string; accepted?: string[] }> = {
  'code-looks-like-date': { in: 'threads', field: 'code', raw: '3-Dec' },
  'text-became-day': { in: 'threads', field: 'lot', raw: '2026-12-03', accepted: ['3-12', '12-3'] },
  'cell-shows-error': { in: 'threads', field: 'name', raw: '#N/A' },
  'formula-without-answer': { in: 'threads', field: 'skeins', raw: '' },
  'formulas-taken': { in: 'threads', field: 'skeins', raw: '', accepted: ['14'] },
  'merged-cells-filled': { in: 'threads', field: null, raw: '', accepted: ['3'] },
  'totals-row': { in: 'threads', field: null, raw: 'Total | 12' },
  'headers-again': { in: 'threads', field: null, raw: '' },
  'more-codes-than-can-be-told': { in: 'threads', field: null, raw: '0311; 0312', accepted: ['100'] },
  'note-not-kept': { in: 'lists', field: null, raw: 'the last of it' },
  'batch-moved': { in: 'threads', field: 'place', raw: 'T2.1', accepted: ['T1.1'] },
  'batch-perhaps-moved': { in: 'threads', field: 'place', raw: 'T2.1', accepted: [''] },
  'code-looks-like-power': { in: 'threads', field: 'code', raw: '1E+05' },
  'code-nearly-known': { in: 'threads', field: 'code', raw: '17', accepted: ['0017'] },
  'cell-looks-like-formula': { in: 'threads', field: 'note', raw: '=1+1' },
  'date-could-be-two': { in: 'charts', field: 'bought', raw: '1/3/2026', accepted: ['2026-03-01'] },
  'over-assumed': { in: 'charts', field: 'count', raw: '28', accepted: ['2'] },
  'strands-assumed': { in: 'lists', field: 'strands', raw: '', accepted: ['2'] },
  'weave-assumed': { in: 'cloth', field: 'weave', raw: 'Ostravane', accepted: ['single'] },
  'dyeing-assumed': { in: 'threads', field: 'line', raw: 'Hand-dyed Cotton', accepted: ['overdyed'] },
  'count-not-square': { in: 'charts', field: 'count', raw: '34 x 31' },
  'amount-not-said': { in: 'threads', field: 'skeins', raw: '' },
  'rows-disagree': { in: 'threads', field: 'name', raw: 'Moss', accepted: ['Pale Moss'] },
  'repeated-row': { in: 'cloth', field: 'label', raw: 'A-01', accepted: ['4'] },
  'list-incomplete': { in: 'lists', field: 'list', raw: 'Rook Hill: Printed list', accepted: ['5', '6'] },
  'line-assumed': { in: 'threads', field: 'line', raw: '', accepted: ['Thread'] },
  'old-label': { in: 'threads', field: 'place', raw: 'T2.1', accepted: ['T2.2'] },
  'former-name': { in: 'threads', field: 'code', raw: 'Larkholm Stranded 311', accepted: ['Larkholm Stranded 0311'] },
}

const found: HowFound = {
  ...{ encoding: 'utf-8', encodingWarnings: [], separator: ',', sheets: null, sheetName: null, hasMacros: false },
  ...{ layout: 'rows', headerRowNumber: 1, headerRows: 1, firstRows: [] },
}

const refusals: { [K in ImportRefused['kind']]: Extract<ImportRefused, { kind: K }> } = {
  empty: { kind: 'empty' },
  'too-large': { kind: 'too-large', bytes: 60 * 1024 * 1024, mostBytes: 50 * 1024 * 1024 },
  'looks-like-xlsx': { kind: 'looks-like-xlsx', format: 'xlsx' },
  binary: { kind: 'binary', format: 'pdf' },
  'workbook-broken': { kind: 'workbook-broken' },
  'workbook-declares-entities': { kind: 'workbook-declares-entities' },
  'workbook-swells': { kind: 'workbook-swells', mostMegabytes: 300 },
  'workbook-too-many': { kind: 'workbook-too-many', what: 'columns', most: 500 },
  'workbook-blank': { kind: 'workbook-blank' },
  'no-such-sheet': { kind: 'no-such-sheet', sheet: 'Thread', sheets: ['Threads', 'Charts'] },
  'no-rows': { kind: 'no-rows' },
  'too-many-rows': { kind: 'too-many-rows', mostRows: 200_000 },
  'header-row-broken': { kind: 'header-row-broken', rowNumber: 1, raw: '"Chart' },
  'too-many-columns': { kind: 'too-many-columns', columns: 900, mostColumns: 500 },
  'unknown-kind': { kind: 'unknown-kind', fileName: 'stock.csv', headers: ['p', 'q'], found },
  'mapping-incomplete': {
    kind: 'mapping-incomplete',
    fileName: 'stock.csv',
    missing: ['Code'],
    headers: [],
    sampleRows: [],
    found,
    mapping: { kind: 'threads', columns: {}, units: {}, defaults: {} },
  },
  'no-such-file': { kind: 'no-such-file', stagedId: 'x' },
  'no-such-import': { kind: 'no-such-import', importId: 'x' },
  'already-undone': { kind: 'already-undone', importId: 'x' },
  'too-big-a-change': { kind: 'too-big-a-change', rows: 300_000 },
}

const allErrors = Object.entries(errors) as [RowErrorKind, (typeof errors)[RowErrorKind]][]
const allWarnings = Object.entries(warnings) as [RowWarningKind, (typeof warnings)[RowWarningKind]][]
const rawNames = [...Object.keys(errors), ...Object.keys(warnings), ...Object.keys(refusals)].filter((name) => name.includes('-'))

function expectSentence(words: string) {
  expect(words).toMatch(/[.?]$/)
  expect(words).not.toMatch(/undefined|null|NaN|“”|: \.|\s{2}/)
  for (const name of rawNames) expect(words).not.toContain(name)
}

const errorOf = (kind: RowErrorKind): RowError => {
  const { in: _, ...said } = errors[kind]
  return { rowNumber: 14, column: said.field === null ? null : 'Ct.', kind, ...said }
}

describe('what keeps a row out', () => {
  it.each(allErrors)('%s is said with its field, what was written and what would be accepted', (kind, example) => {
    const words = describeFault(errorOf(kind), example.in)
    expectSentence(words)
    if (example.field !== null) {
      const label = listFields(example.in).find(({ name }) => name === example.field)?.label
      expect(words).toContain(`${label} (column “Ct.”)`)
    }
    if (example.raw !== '') expect(words).toContain(example.raw.slice(0, 40))
    for (const accepted of example.accepted ?? []) expect(words).toContain(kind === 'dates-out-of-order' ? '2026' : accepted)
  })

  it.each(allErrors)('%s still makes a sentence where nothing near or accepted is known', (kind, example) => {
    const words = describeFault({ ...errorOf(kind), column: null, accepted: undefined }, example.in)
    expectSentence(words)
    expect(words).toMatch(/^\p{Lu}|^[ab]:/u)
  })

  it('names the column only where it is called otherwise than the field', () => {
    expect(describeFault({ ...errorOf('not-a-count'), column: 'count' }, 'cloth')).toBe(
      'Count: “fine” is not a count. 28 or 34 x 31 would be accepted.',
    )
  })

  it('cuts a long cell short', () => {
    expect(describeFault(errorOf('cell-too-long'), 'charts').length).toBeLessThan(200)
  })

  it('says a fault that many rows share once', () => {
    const missing = [2, 3, 4, 5, 6, 7, 8, 9].map((rowNumber) => ({ ...errorOf('missing'), rowNumber }))
    const [first, ...others] = gatherRows([...missing, { ...errorOf('not-a-number'), rowNumber: 4 }])
    expect(describeRows(first?.rowNumbers ?? [])).toBe('Rows 2, 3, 4, 5, 6, 7 and 2 more')
    expect(others.map(({ rowNumbers }) => describeRows(rowNumbers))).toEqual(['Row 4'])
  })
})

describe('what is worth a look', () => {
  it.each(allWarnings)('%s is a sentence with its field and what is taken', (kind, example) => {
    const { in: file, ...said } = example
    const warning: RowWarning = { rowNumber: 3, column: null, kind, ...said }
    const words = describeWarning(warning, file)
    expectSentence(words)
    if (example.raw !== '') expect(words).toContain(example.raw)
  })
})

describe('why nothing was done', () => {
  it.each(Object.values(refusals))('$kind is a sentence', (refusal) => expectSentence(describeImportRefusal(refusal)))

  it('tells how a workbook can be brought in', () => {
    expect(describeImportRefusal(refusals['looks-like-xlsx'])).toContain('Save it as CSV first')
  })
})

describe('counts', () => {
  it('leave out what there is none of', () => {
    expect(describeCounts({ added: 1214, changed: 0, same: 3, refused: 2 })).toBe('1,214 new, 3 the same, 2 refused')
    expect(describeCounts({ added: 0, changed: 0, same: 0, refused: 0 })).toBe('nothing')
  })

  it('say so when there is nothing to do', () => {
    expect(describeNothingToDo({ added: 0, changed: 0, same: 9, refused: 0 })).toBe(
      'Everything in this file is here already; nothing would change.',
    )
    expect(describeNothingToDo({ added: 0, changed: 0, same: 0, refused: 9 })).toContain('No row can be brought in')
    expect(describeNothingToDo({ added: 0, changed: 0, same: 1, refused: 1 })).toContain('1 row cannot')
    expect(describeNothingToDo({ added: 0, changed: 1, same: 1, refused: 1 })).toBeNull()
  })

  it('name every noun an import can make', () => {
    for (const noun of importedNouns) expect(countedNoun(2, noun)).not.toMatch(/[A-Z]/)
    expect(countedNoun(1, 'batch')).toBe('1 batch of thread')
    expect(countedNoun(3, 'cloth')).toBe('3 pieces of cloth')
  })
})

describe('what an undo left', () => {
  it('is gathered by noun and reason, most first', () => {
    const left = gatherLeft([
      { noun: 'place', nounId: '1', why: 'in-use' },
      { noun: 'batch', nounId: '2', why: 'changed-since' },
      { noun: 'batch', nounId: '3', why: 'changed-since' },
    ])
    expect(left.map(describeLeft)).toEqual([
      '2 batches of thread: changed by hand since.',
      '1 place: something else depends on it now.',
    ])
  })
})
