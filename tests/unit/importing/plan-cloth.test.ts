import { describe, expect, it } from 'vitest'
import { byHand, counts, having, plan, wrong } from './bring-in'

describe('cloth', () => {
  const file =
    'Label,Cloth,Weave,Count,Size,Colour,Place\nC-1,Linen,single,34 x 31,18 x 27 in,Fog,C1\n,Aida,block,14,9 x 9 in,White,C1\n,Aida,block,14,9 x 9 in,White,C1\n'

  it('is new with a receipt, turnable when its count is the same both ways', () => {
    const planned = plan(file)
    expect(counts(planned)).toEqual([3, 0, 0, 0])
    const pieces = planned.operations.flatMap((operation) =>
      operation.noun === 'cloth' && operation.do === 'add' ? [operation.row] : [],
    )
    expect(pieces.map(({ name, isTurnable }) => [name, isTurnable]).sort()).toEqual([
      ['Aida', true],
      ['Aida', true],
      ['Linen', false],
    ])
    expect(planned.movements.map(({ kind, wholeDelta }) => [kind, wholeDelta])).toEqual([1, 1, 1].map((one) => ['receive', one]))
  })

  it('keeps what is said of its dye and washing, and why uneven cloth is not turned', () => {
    const cared =
      'Label,Cloth,Weave,Count,Size,Dyed,Washed,One way because\n' +
      'C-1,Linen,single,34 x 31,18 x 27 in,,,\n' +
      'C-2,Linen,single,28,18 x 27 in,hand-dyed,yes,dye\n'
    const rows = plan(cared).operations.flatMap((each) => (each.noun === 'cloth' && each.do === 'add' ? [each.row] : []))
    expect(
      rows.map(({ isTurnable, oneWayBecause, dyeing, washState, countCertainty }) => [
        ...[isTurnable, oneWayBecause],
        ...[dyeing, washState, countCertainty],
      ]),
    ).toEqual([
      [false, 'count', null, 'unknown', 'label'],
      [false, 'dye', 'hand-dyed', 'washed', 'label'],
    ])
    const there = byHand(having(cared))
    const turned = 'Label,Cloth,Weave,Count,Size,May turn\nC-2,Linen,single,28,18 x 27 in,yes\n'
    expect(plan(turned, there).operations).toMatchObject([
      { do: 'change', noun: 'cloth', after: { isTurnable: true, oneWayBecause: null } },
    ])
  })

  it('is counted anew by another count only', () => {
    const there = byHand(having(file))
    const washed = { ...there, cloth: there.cloth.map((piece) => ({ ...piece, isCountStale: true })) }
    expect(counts(plan(file, washed))).toEqual([0, 0, 3, 0])
    expect(plan(file.replace('34 x 31', '35 x 32'), washed).operations).toMatchObject([
      { do: 'change', noun: 'cloth', after: { isCountStale: false } },
    ])
  })

  it('is known again by its label, or by what it is and where', () => {
    const there = byHand(having(file))
    expect(counts(plan(file, there))).toEqual([0, 0, 3, 0])
    expect(plan(file.replace('18 x 27', '18 x 26'), there).operations).toMatchObject([
      { do: 'change', noun: 'cloth', after: { heightUm: 660_400 } },
    ])
    expect(counts(plan(`${file},Aida,block,14,9 x 9 in,White,C1\n`, there))).toEqual([1, 0, 3, 0])
    expect(counts(plan(`${file},Aida,block,14,9 x 9 in,Red,C1\n`, there))).toEqual([1, 0, 3, 0])
  })

  it('is refused where two pieces bear one label, and kept once where a row is repeated', () => {
    const planned = plan(
      'Label,Cloth,Weave,Count,Size\nC-1,Linen,single,28,18 x 27 in\nC-1,Linen,single,28,9 x 9 in\nC-2,Aida,block,14,9 x 9 in\nC-2,Aida,block,14,9 x 9 in\n',
    )
    expect(wrong(planned)).toEqual([
      [2, 'Label', 'repeated-label', 'C-1', ['3']],
      [3, 'Label', 'repeated-label', 'C-1', ['2']],
    ])
    expect(planned.counts).toEqual({ added: 1, changed: 0, same: 1, refused: 2 })
    expect(planned.warnings).toMatchObject([{ kind: 'repeated-row' }])
  })
})
