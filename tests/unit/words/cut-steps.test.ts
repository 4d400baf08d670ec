import { describe, expect, it } from 'vitest'
import { cutSteps } from '#lib/cloth/cut-steps'
import { cutDrawingSentence } from '#words/cut-drawing'
import { afterCutting, beforeCutting, cutNames, partTitle, stepWords } from '#words/cut-steps'
import { across, fatQuarter, fifteenSquares, layoutOf, offcut, up, wanted } from '../cloth/cut-layouts'

const titles = new Map([
  ['eleven', 'Rook Hill in Snow'],
  ['eight', 'Seven Lanterns'],
  ['six', 'Kettle at Wend Cross'],
  ['lanterns', 'Seven Lanterns'],
])

const told = (layout: Parameters<typeof cutSteps>[0], both = false) =>
  stepWords(cutSteps(layout), { ...cutNames([layout], titles), unit: 'in', both }).map(({ act, results }) => [act, ...results])

describe('stepWords', () => {
  it('tells the cuts of a fat quarter in order', () => {
    expect(told(fatQuarter())).toEqual([
      [
        'Cut straight across, 12 in from the foot.',
        'The lower part is 18 × 12 in, for cut 3.',
        'What is left, 18 × 15 in, is cut next.',
      ],
      [
        'What is left, 18 × 15 in: cut straight across, 8 in from its foot.',
        'The lower part is 18 × 8 in, for cut 6.',
        'The upper part, 18 × 7 in, is offcut 1: keep it.',
      ],
      [
        'The lower part of cut 1, 18 × 12 in: cut straight up, 11 in from its left.',
        'The left part is 11 × 12 in, for cut 5.',
        'What is left, 7 × 12 in, is cut next.',
      ],
      [
        'What is left, 7 × 12 in: trim straight up, 6 in from its left.',
        'The left part, 6 × 12 in, is B, Kettle at Wend Cross.',
        'The right part, 1 × 12 in, is waste.',
      ],
      [
        'The left part of cut 3, 11 × 12 in: trim straight across, 11 in from its foot.',
        'The lower part, 11 × 11 in, is A, Rook Hill in Snow.',
        'The upper part, 11 × 1 in, is waste.',
      ],
      [
        'The lower part of cut 2, 18 × 8 in: cut straight up at 8 and 16 in from its left.',
        '2 parts, each 8 × 8 in, are C, Seven Lanterns.',
        'What is left, 2 × 8 in, is waste.',
      ],
    ])
  })

  it('tells equal strips once, and what each gives', () => {
    expect(told(fifteenSquares())).toEqual([
      [
        'Cut straight across at 10, 20 and 30 in from the foot.',
        '2 strips of 54 × 10 in, for cut 2.',
        '1 strip is 54 × 10 in, for cut 3.',
        'What is left, 54 × 1 in, is waste.',
      ],
      [
        'Strips 1 and 2 of cut 1, counted from the foot, 54 × 10 in: cut straight up at 10, 20, 30, 40 and 50 in from its left.',
        'From each: 5 parts, each 10 × 10 in, are A, Seven Lanterns.',
        'From each: what is left, 4 × 10 in, is waste.',
      ],
      [
        'Strip 3 of cut 1, counted from the foot, 54 × 10 in: cut straight up at 10, 20, 30, 40 and 50 in from its left.',
        '3 parts, each 10 × 10 in, are A, Seven Lanterns.',
        '2 parts, each 10 × 10 in, are offcuts 1 and 2: keep them.',
        'What is left, 4 × 10 in, is waste.',
      ],
    ])
  })

  it('gives the other unit too where it is wanted', () => {
    expect(told(fatQuarter(), true)[5]).toEqual([
      'The lower part of cut 2, 18 × 8 in (45.72 × 20.32 cm): cut straight up at 8 and 16 in (20.32 and 40.64 cm) from its left.',
      '2 parts, each 8 × 8 in (20.32 × 20.32 cm), are C, Seven Lanterns.',
      'What is left, 2 × 8 in (5.08 × 20.32 cm), is waste.',
    ])
  })

  it('names what comes of strips cut alike, and a turned part', () => {
    const column = (copy: number) => across(8, wanted('eight', copy, true), offcut)
    const layout = layoutOf('piece', 12, 14, up(6, column(1), column(2)))
    expect(told(layout)).toEqual([
      ['Cut straight up, 6 in from the left.', '2 strips of 6 × 14 in, for cut 2.'],
      [
        'Both strips of cut 1, 6 × 14 in: cut straight across, 8 in from its foot.',
        'From each: the lower part, 6 × 8 in, is A, Seven Lanterns, turned.',
        'From each: the upper part, 6 × 6 in, is an offcut, 1 and 2 in all: keep them.',
      ],
    ])
  })
})

describe('beforeCutting', () => {
  it('has a piece squared that is not, and says what pinking takes', () => {
    const size = { widthUm: 18 * 25_400, heightUm: 27 * 25_400 }
    const sentences = beforeCutting({ isSquared: false, size, gapUm: 6_350, unit: 'in', both: true }).join(' ')
    expect(sentences).toContain('Square the piece first')
    expect(sentences).toContain('less than 18 × 27 in (45.72 × 68.58 cm)')
    expect(sentences).toContain('¼ in (0.64 cm)')
  })

  it('is short for a squared piece and plain shears', () => {
    expect(beforeCutting({ isSquared: true, size: { widthUm: 1, heightUm: 1 }, gapUm: 0, unit: 'in' })).toHaveLength(1)
  })
})

describe('afterCutting', () => {
  it('has offcuts labelled only where there are any', () => {
    expect(afterCutting(fatQuarter()).join(' ')).toContain('Label the offcut')
    expect(afterCutting(layoutOf('square', 8, 8, wanted('eight'))).join(' ')).not.toContain('Label')
  })
})

describe('cutDrawingSentence', () => {
  it('says what a drawing shows', () => {
    const layout = fatQuarter()
    expect(cutDrawingSentence(layout, 'L-12', cutNames([layout], titles), 'in')).toBe(
      'L-12, 18 × 27 in, head up: cut into A Rook Hill in Snow, 11 × 11 in; B Kettle at Wend Cross, 6 × 12 in; 2 × C Seven Lanterns, 8 × 8 in; 1 offcut left: 18 × 7 in.',
    )
  })
})

describe('partTitle', () => {
  it('is empty for a plain size, whichever way it is laid', () => {
    const layout = layoutOf('piece', 11, 8, up(6, wanted('plain'), offcut))
    const names = cutNames([layout], new Map([['plain', '8 × 6 in']]))
    const inches = (width: number, height: number) => ({ wishId: 'plain', widthUm: width * 25_400, heightUm: height * 25_400 })
    expect(partTitle(inches(8, 6), names, 'in')).toBe('')
    expect(partTitle(inches(6, 8), names, 'in')).toBe('')
    expect(partTitle(inches(6, 9), names, 'in')).toBe('8 × 6 in')
    const [step] = stepWords(cutSteps(layout), { ...names, unit: 'in' })
    expect(step?.results[0]).toBe('The left part, 6 × 8 in, is A.')
  })
})
