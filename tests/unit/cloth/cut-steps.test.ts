import { describe, expect, it } from 'vitest'
import { cutLetters, cutSteps, listOffcuts, listWantedParts } from '../../../lib/cloth/cut-steps'
import { across, fatQuarter, fifteenSquares, layoutOf, offcut, up, wanted, waste } from './cut-layouts'

const inch = 25_400
const inches = (um: readonly number[]) => um.map((one) => one / inch)

describe('cutSteps', () => {
  it('cuts the fat quarter whole cuts first, then each strip from the foot up', () => {
    const steps = cutSteps(fatQuarter())
    expect(steps.map(({ number, way, atUm }) => [number, way, ...inches(atUm)])).toEqual([
      [1, 'across', 12],
      [2, 'across', 8],
      [3, 'up', 11],
      [4, 'up', 6],
      [5, 'across', 11],
      [6, 'up', 8, 16],
    ])
    expect(steps.map(({ table }) => [table.from.kind, ...inches([table.widthUm, table.heightUm])])).toEqual([
      ['whole', 18, 27],
      ['rest', 18, 15],
      ['strips', 18, 12],
      ['rest', 7, 12],
      ['strips', 11, 12],
      ['strips', 18, 8],
    ])
    expect(steps[0]?.off).toEqual([{ widthUm: 18 * inch, heightUm: 12 * inch, count: 1, fate: { kind: 'cut', atStep: 3 } }])
    expect(steps[0]?.rest?.fate).toEqual({ kind: 'cut', atStep: 2 })
    expect(steps[1]?.off[0]?.fate).toEqual({ kind: 'cut', atStep: 6 })
    expect(steps[1]?.rest).toEqual({ widthUm: 18 * inch, heightUm: 7 * inch, count: 1, fate: { kind: 'offcut', numbers: [1] } })
    expect(steps[4]?.off[0]?.fate).toEqual({ kind: 'wanted', wishId: 'eleven', isTurned: false, copies: [1] })
    expect(steps[4]?.rest?.fate).toEqual({ kind: 'waste' })
  })

  it('tells two equal strips as one step, and both copies of what they are', () => {
    const last = cutSteps(fatQuarter()).at(-1)
    expect(last?.off).toEqual([
      {
        widthUm: 8 * inch,
        heightUm: 8 * inch,
        count: 2,
        fate: { kind: 'wanted', wishId: 'eight', isTurned: false, copies: [1, 2] },
      },
    ])
    expect(last?.rest?.fate.kind).toBe('waste')
  })

  it('draws each line of a step where it is on the whole piece', () => {
    expect(
      cutSteps(fatQuarter()).map(({ lines }) => lines.map((line) => inches([line.x1Um, line.y1Um, line.x2Um, line.y2Um]))),
    ).toEqual([
      [[0, 12, 18, 12]],
      [[0, 20, 18, 20]],
      [[11, 0, 11, 12]],
      [[17, 0, 17, 12]],
      [[0, 11, 11, 11]],
      [
        [8, 12, 8, 20],
        [16, 12, 16, 20],
      ],
    ])
  })

  it('cuts equal rows together and the odd one by itself', () => {
    const steps = cutSteps(fifteenSquares())
    expect(steps.map(({ way, table, atUm }) => [way, table.count, ...inches(atUm)])).toEqual([
      ['across', 1, 10, 20, 30],
      ['up', 2, 10, 20, 30, 40, 50],
      ['up', 1, 10, 20, 30, 40, 50],
    ])
    expect(steps[0]?.off.map(({ count, fate }) => [count, fate.kind])).toEqual([
      [2, 'cut'],
      [1, 'cut'],
    ])
    expect(steps[1]?.table.from).toEqual({ kind: 'strips', step: 1, first: 1, last: 2, ofStrips: 3 })
    expect(steps[2]?.table.from).toEqual({ kind: 'strips', step: 1, first: 3, last: 3, ofStrips: 3 })
    expect(steps[1]?.lines).toHaveLength(10)
    expect(steps[1]?.off[0]?.fate).toMatchObject({ copies: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] })
    expect(steps[2]?.off.map(({ count, fate }) => [count, fate.kind])).toEqual([
      [3, 'wanted'],
      [2, 'offcut'],
    ])
    expect(steps[2]?.off[1]?.fate).toEqual({ kind: 'offcut', numbers: [1, 2] })
  })

  it('counts the last strip among its equals when nothing is over', () => {
    const [step] = cutSteps(layoutOf('band', 12, 6, up(4, wanted('a', 1), up(4, wanted('a', 2), wanted('a', 3)))))
    expect(inches(step?.atUm ?? [])).toEqual([4, 8])
    expect(step?.off).toMatchObject([{ count: 3 }])
    expect(step?.rest).toBeNull()
  })

  it('says the same of a plan that halves first and of one that cuts strip by strip', () => {
    const stripByStrip = layoutOf('band', 12, 6, up(4, wanted('a', 1), up(4, wanted('a', 2), wanted('a', 3))))
    const halvesFirst = layoutOf('band', 12, 6, up(8, up(4, wanted('a', 1), wanted('a', 2)), wanted('a', 3)))
    expect(cutSteps(halvesFirst)).toEqual(cutSteps(stripByStrip))
  })

  it('measures past the gap that pinking takes', () => {
    const [step] = cutSteps(layoutOf('band', 20, 6, up(6, wanted('a', 1), up(6, wanted('a', 2), offcut, 0.25), 0.25)))
    expect(inches(step?.atUm ?? [])).toEqual([6, 12.25])
    expect(step?.rest?.widthUm).toBe(7.5 * inch)
  })

  it('has a trim narrower than the gap come off too', () => {
    const steps = cutSteps(layoutOf('band', 6.125, 6, up(6, wanted('a'), null, 0.25)))
    expect(steps).toHaveLength(1)
    expect(steps[0]?.rest).toEqual({ widthUm: 0.125 * inch, heightUm: 6 * inch, count: 1, fate: { kind: 'waste' } })
  })

  it('has nothing to cut where the piece is just the size', () => {
    expect(cutSteps(layoutOf('square', 6, 6, wanted('a')))).toEqual([])
  })
})

describe('listOffcuts', () => {
  it('numbers the lower before the upper and the left before the right', () => {
    const layout = layoutOf('piece', 20, 20, across(10, up(10, offcut, offcut), up(6, wanted('a'), up(6, waste, offcut))))
    expect(listOffcuts(layout).map(({ number, xUm, yUm }) => [number, xUm / inch, yUm / inch])).toEqual([
      [1, 0, 0],
      [2, 10, 0],
      [3, 12, 10],
    ])
  })
})

describe('listWantedParts', () => {
  it('puts equal parts together and keeps a turned one apart', () => {
    const layout = layoutOf(
      'piece',
      16,
      8,
      up(4, wanted('a', 1), up(4, wanted('a', 2), up(4, wanted('b'), wanted('a', 3, true)))),
    )
    expect(listWantedParts(layout).map(({ wishId, isTurned, count }) => [wishId, isTurned, count])).toEqual([
      ['a', false, 2],
      ['b', false, 1],
      ['a', true, 1],
    ])
  })
})

describe('cutLetters', () => {
  it('gives a wish one letter over all pieces', () => {
    const letters = cutLetters([
      layoutOf('one', 8, 4, up(4, wanted('b'), wanted('a'))),
      layoutOf('two', 8, 4, up(4, wanted('c'), wanted('b', 2))),
    ])
    expect([...letters]).toEqual([
      ['b', 'A'],
      ['a', 'B'],
      ['c', 'C'],
    ])
  })

  it('goes on with AA after Z', () => {
    const many = Array.from({ length: 28 }, (_, at) => layoutOf(`piece ${at}`, 4, 4, wanted(`wish ${at}`)))
    const letters = cutLetters(many)
    expect([letters.get('wish 25'), letters.get('wish 26'), letters.get('wish 27')]).toEqual(['Z', 'AA', 'AB'])
  })
})
