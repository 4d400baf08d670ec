import { describe, expect, it } from 'vitest'
import {
  countPlaces,
  expandLabelPattern,
  labelBetween,
  levelInPattern,
  nextFreeLabel,
  parseLabelPattern,
  printLabelPattern,
} from '#lib/place/label-pattern'

const read = (text: string) => {
  const result = parseLabelPattern(text)
  if (!result.ok) throw new Error(`${text}: ${JSON.stringify(result.error)}`)
  return result.value
}
const labels = (text: string) => expandLabelPattern(read(text)).map(({ label }) => label)
const refusal = (text: string) => {
  const result = parseLabelPattern(text)
  return result.ok ? printLabelPattern(result.value) : result.error
}

describe('a pattern of labels', () => {
  it('makes columns, drawers and compartments at once, each inside the one before it', () => {
    // T2.1-14 is column 2, drawer 1, compartment 14 (trade notes, part 1).
    const all = expandLabelPattern(read('T[2-4] > .[1-5] > -[01-40]'))
    expect(all).toHaveLength(3 + 3 * 5 + 3 * 5 * 40)
    expect(all.slice(0, 3)).toEqual([
      { label: 'T2', level: 0, insideLabel: null },
      { label: 'T2.1', level: 1, insideLabel: 'T2' },
      { label: 'T2.1-01', level: 2, insideLabel: 'T2.1' },
    ])
    expect(all).toContainEqual({ label: 'T2.1-14', level: 2, insideLabel: 'T2.1' })
    expect(all.at(-1)?.label).toBe('T4.5-40')
  })

  it('counts with gaps, through letters, and past what is left out', () => {
    expect(labels('R[10-50 by 10]')).toEqual(['R10', 'R20', 'R30', 'R40', 'R50'])
    expect(labels('R[10-45 by 10]')).toEqual(['R10', 'R20', 'R30', 'R40'])
    expect(labels('Shelf [A-C]')).toEqual(['Shelf A', 'Shelf B', 'Shelf C'])
    expect(labels('[a-g by 3]')).toEqual(['a', 'd', 'g'])
    expect(labels('D[1-2, 4, 08-09]')).toEqual(['D1', 'D2', 'D4', 'D08', 'D09'])
    expect(labels('[A-B][1-2]')).toEqual(['A1', 'A2', 'B1', 'B2'])
    expect(labels('Chart box')).toEqual(['Chart box'])
  })

  it('means nothing by spaces at the ends and round the signs', () => {
    expect(labels('  Box   [ 1 - 2 ]>, tray [A , C]  ')).toEqual(labels('Box [1-2] > , tray [A, C]'))
    expect(labels('Box [1-2] > , tray [A, C]').slice(0, 3)).toEqual(['Box 1', 'Box 1, tray A', 'Box 1, tray C'])
    expect(printLabelPattern(read(' Box [1 -2]>, tray [A,C]'))).toBe('Box [1-2] > , tray [A, C]')
  })

  it.each([
    ['', { kind: 'empty' }],
    ['  ', { kind: 'empty' }],
    ['T[1-4', { kind: 'not-closed', at: 2 }],
    ['T1-4]', { kind: 'not-open', at: 5 }],
    ['T[]', { kind: 'unexpected', at: 3, found: ']', expected: 'value' }],
    ['T[1..4]', { kind: 'unexpected', at: 4, found: '.', expected: 'after-run' }],
    ['T[AB-AD]', { kind: 'unexpected', at: 3, found: 'A', expected: 'value' }],
    ['T[1-9 by two]', { kind: 'unexpected', at: 10, found: 't', expected: 'step' }],
    ['T[1-9 by 0]', { kind: 'no-step', at: 10 }],
    ['T[4-1]', { kind: 'falling', at: 3, from: '4', to: '1' }],
    ['T[C-A]', { kind: 'falling', at: 3, from: 'C', to: 'A' }],
    ['T[1-4, 3-6]', { kind: 'not-after', at: 8, value: '3', before: '4' }],
    ['T[1-4, A]', { kind: 'mixed', at: 8, value: 'A' }],
    ['T[A-c]', { kind: 'mixed', at: 5, value: 'c' }],
    ['T[1-F]', { kind: 'mixed', at: 5, value: 'F' }],
    ['T[01-5]', { kind: 'uneven-zeros', at: 3, from: '01', to: '5' }],
    ['T[1-1234567]', { kind: 'too-many-digits', at: 3, most: 6 }],
    ['T[1-3] > ', { kind: 'nothing-inside', at: 9 }],
    ['> T[1-3]', { kind: 'nothing-inside', at: 1 }],
    ['T[1-12][1-12]', { kind: 'runs-together', at: 8 }],
    ['T[1-12] > [1-12]', { kind: 'runs-together', at: 11 }],
    ['T[1-12] > 2[8-12]', { kind: 'runs-together', at: 12 }],
    ['T[1-12] >  [1-12]', { kind: 'runs-together', at: 12 }],
    ['[1-80] > -[1-80]', { kind: 'too-many', count: 80 + 6400, most: 5000 }],
    [`${'long '.repeat(12)}[1-3]`, { kind: 'too-long', label: `${'long '.repeat(12)}3`, most: 60 }],
    ['a>b>c>d>e>f>g', { kind: 'too-deep', at: 13, most: 6 }],
  ])('refuses %j and says where', (text, error) => {
    expect(refusal(text)).toEqual(error)
  })

  it('lets numbers touch where the later has one width', () => {
    expect(labels('[1-2][01-02]')).toEqual(['101', '102', '201', '202'])
    expect(labels('[9-10] > 1[2-3]')).toEqual(['9', '912', '913', '10', '1012', '1013'])
  })

  it('knows at which level a label stands', () => {
    const pattern = read('T[2-4] > .[1-5] > -[01-40]')
    expect(
      ['T2', 'T3.5', 'T4.1-07', 'T5', 'T2.6', 'T2.1-7', 't2', 'T2.1-007', 'Box 1', ''].map((label) =>
        levelInPattern(pattern, label),
      ),
    ).toEqual([0, 1, 2, null, null, null, null, null, null, null])
    expect(levelInPattern(read('R(1)+[10-50 by 10]'), 'R(1)+30')).toBe(0)
    expect(levelInPattern(read('R[10-50 by 10]'), 'R35')).toBeNull()
  })

  it('finds the next free label', () => {
    const pattern = read('T[2-4] > .[1-5] > -[01-03]')
    const taken = new Set(['T2', 'T3', 'T2.1', 'T2.1-01', 'T2.1-03'])
    const isTaken = (label: string) => taken.has(label)
    expect(nextFreeLabel(pattern, 0, null, isTaken)).toBe('T4')
    expect(nextFreeLabel(pattern, 1, 'T2', isTaken)).toBe('T2.2')
    expect(nextFreeLabel(pattern, 2, 'T2.1', isTaken)).toBe('T2.1-02')
    expect(nextFreeLabel(pattern, 2, 'T2.1', () => true)).toBeNull()
    expect(nextFreeLabel(pattern, 3, 'T2.1-01', () => false)).toBeNull()
  })

  it('puts a label between two neighbours where they leave a number', () => {
    expect(labelBetween('R20', 'R30')).toBe('R25')
    expect(labelBetween('T2.1-010', 'T2.1-020')).toBe('T2.1-015')
    expect(labelBetween('R20', 'R22')).toBe('R21')
    expect(labelBetween('R20', 'R21')).toBeNull()
    expect(labelBetween('R20', 'S30')).toBeNull()
    expect(labelBetween('R2.1', 'R4.3')).toBeNull()
    expect(labelBetween('R20', 'R20')).toBeNull()
    expect(labelBetween('R30', 'R20')).toBeNull()
  })

  it('counts what it makes without making it', () => {
    expect(countPlaces(read('[A-C][1-4] > -[1-10 by 3, 12]'))).toBe(12 + 12 * 5)
  })
})
