import { describe, expect, it } from 'vitest'
import type { AdvisedCloth, Design } from '#lib/chart/design'
import { oneMotif } from '#lib/cloth/motifs'
import { clothAnswer } from '#lib/coverage/cloth-answer'
import { answerDesignCloth, type ClothChoices, chosenOver } from '#lib/coverage/design-cloth'
import { answerDesignFrame } from '#lib/coverage/design-frame'
import { settingsSchema } from '#lib/settings/settings'
import { aPiece, inches, toTheInch } from '../cloth/cloth-pieces'

const advised: AdvisedCloth = { count: toTheInch(28), over: 2, weave: 'single', insists: false, name: null }
const aDesign = (overrides: Partial<Design> = {}) => ({
  id: 'd1',
  size: { kind: 'stitches', width: 140, height: 98 } as Design['size'],
  advised,
  ...overrides,
})
const settings = settingsSchema.parse({})
const choices = (overrides: Partial<ClothChoices> = {}): ClothChoices => ({
  ...{ margins: settings.margins.framed, over: null, motifs: oneMotif, count: null, pieceId: null },
  ...overrides,
})
const answer = (pieces: Parameters<typeof answerDesignCloth>[1], chosen: Partial<ClothChoices> = {}, design = aDesign()) => {
  const cloth = answerDesignCloth(design, pieces, choices(chosen), settings)
  if (!cloth) throw new Error('no size')
  return cloth
}
const fatEighth = aPiece({ id: 'eighth', widthUm: inches(13), heightUm: inches(18), isSquared: false })

describe('answerDesignCloth', () => {
  it('says of a nominal piece that it fits only turned, and what squaring makes of it', () => {
    const { shown, counts } = answer([fatEighth])
    expect(shown).toMatchObject({
      ...{ piece: { id: 'eighth' }, fit: { kind: 'fits', isTurned: true, nothingToSpare: true } },
      upright: { kind: 'smaller-margin', dimension: 'width', marginUm: inches(1.5) },
      afterSquaring: { kind: 'smaller-margin', marginUm: inches(2.75) },
    })
    expect(counts[0]).toMatchObject({ isAdvised: true, isOnlyTurned: true })
  })

  it('gives the piece that the design’s own answer gives, as long as nothing is chosen otherwise', () => {
    const pieces = [
      aPiece({ id: 'large', widthUm: inches(36), heightUm: inches(54) }),
      aPiece({ id: 'offcut', widthUm: inches(20), heightUm: inches(30), isOffcut: true }),
      aPiece({ id: 'kept', widthUm: inches(16), heightUm: inches(13), isReserved: true }),
      aPiece({ id: 'aida', weave: 'block', ends: toTheInch(14), picks: toTheInch(14) }),
    ]
    for (const design of [aDesign(), aDesign({ advised: null })]) {
      const plain = clothAnswer(design, pieces, { ...settings, margins: settings.margins.framed })
      if (plain.kind !== 'answer') throw new Error(plain.kind)
      expect(answer(pieces, {}, design).shown?.piece.id).toBe(plain.choice.best?.piece.id)
    }
  })

  it('works it over one: half the size', () => {
    // 140/28 = 5, 98/28 = 3.5 in; with 6 in 11 × 9.5.
    const { shown, toBuy } = answer([], { over: 1 })
    expect(shown).toBeNull()
    expect(toBuy).toMatchObject({ widthUm: inches(11), heightUm: inches(9.5) })
  })

  it('tries a count that is not on hand, over two and over one, and one that is', () => {
    // 140/18 = 7.78 and 98/18 = 5.44; with 6 in 13.78 × 11.44, so 14 × 11.5.
    const count = { ends: toTheInch(36), picks: toTheInch(36), over: null }
    const none = answer([fatEighth], { count })
    expect(none.tried.map(({ over, heldCount }) => [over, heldCount])).toEqual([
      [2, 0],
      [1, 0],
    ])
    expect(none.tried[0]?.upright.cut).toMatchObject({ widthUm: inches(14), heightUm: inches(11.5) })
    const held = aPiece({ id: 'fine', ends: toTheInch(36), picks: toTheInch(36), widthUm: inches(14), heightUm: inches(12) })
    expect(answer([held], { count: { ...count, over: 2 } }).tried).toMatchObject([
      { over: 2, heldCount: 1, ranked: [{ piece: { id: 'fine' } }] },
    ])
  })

  it('says what to cut for each way of finishing', () => {
    const { finishings, sizedOn } = answer([aPiece()])
    const cutFor = (name: string) => finishings.find((finishing) => finishing.name === name)?.cut
    // 10 × 7 in with 3, 2 and 1 in all round; a bell pull 2 at the sides, 3 above and below.
    expect(sizedOn).toMatchObject({ ends: toTheInch(28), over: 2 })
    expect(cutFor('framed')).toMatchObject({ widthUm: inches(16), heightUm: inches(13) })
    expect(cutFor('ornament')).toMatchObject({ widthUm: inches(14), heightUm: inches(11) })
    expect(cutFor('biscornu')).toMatchObject({ widthUm: inches(12), heightUm: inches(9) })
    expect(cutFor('bell pull')).toMatchObject({ widthUm: inches(14), heightUm: inches(13) })
  })

  it('looks at any piece that is asked for, also one that is reserved or too small', () => {
    const pieces = [
      aPiece({ id: 'best' }),
      aPiece({ id: 'kept', isReserved: true }),
      aPiece({ id: 'small', heightUm: inches(3) }),
    ]
    expect(answer(pieces, { pieceId: 'kept' }).shown?.piece.id).toBe('kept')
    expect(answer(pieces, { pieceId: 'small' }).shown).toMatchObject({ piece: { id: 'small' }, fit: { kind: 'too-small' } })
    expect(answer(pieces, { pieceId: 'gone' }).shown?.piece.id).toBe('best')
  })

  it('says of a count that the chart insists on another weave', () => {
    const aida = aPiece({ id: 'aida', weave: 'block', ends: toTheInch(14), picks: toTheInch(14) })
    const { counts, shown } = answer([aida], {}, aDesign({ advised: { ...advised, insists: true } }))
    expect(counts).toMatchObject([{ kind: 'block 14', isAdvised: false, isAgainstAdvice: true }])
    expect(shown).toBeNull()
  })

  it('allows nothing for shrinkage on washed cloth, also in the table of finishings', () => {
    const shrinking = { ...settings, shrinkPercent: 3 }
    const cutOn = (washState: 'washed' | 'new') =>
      answerDesignCloth(aDesign(), [aPiece({ washState })], choices(), shrinking)?.finishings[0]?.cut.exactWidthUm
    expect(cutOn('washed')).toBeCloseTo(inches(16), 3)
    expect(cutOn('new')).toBeCloseTo(inches(16) / 0.97, 3)
  })

  it('carries the uncertainty of a size known only in inches', () => {
    // 8 × 6 in at 14: 112 × 84, out by ⅛ in; 8 + 6 + 0.125.
    const size: Design['size'] = { kind: 'measured', widthUm: inches(8), heightUm: inches(6) }
    const cloth = answer([aPiece()], {}, aDesign({ size }))
    expect(cloth.size).toMatchObject({ width: 112, height: 84, isEstimated: true, uncertaintyUm: inches(0.125) })
    expect(cloth.shown?.fit.cut.exactWidthUm).toBeCloseTo(inches(14.125), 3)
  })

  it('says nothing of a design without a size', () => {
    expect(answerDesignCloth(aDesign({ size: { kind: 'unknown' } }), [aPiece()], choices(), settings)).toBeNull()
  })
})

describe('chosenOver', () => {
  it('takes over one on any cloth, and over two on single threads only', () => {
    expect([chosenOver('single', 1, advised), chosenOver('block', 1, advised)]).toEqual([1, 1])
    expect([chosenOver('single', 2, { ...advised, over: 1 }), chosenOver('block', 2, advised)]).toEqual([2, 1])
    expect([chosenOver('single', null, advised), chosenOver('block', null, advised)]).toEqual([2, 1])
  })
})

describe('answerDesignFrame', () => {
  const asked = { opening: null, seenUm: settings.framing.seenUm, over: null, pieceId: null }

  it('says what frame a design takes on the piece it is cut from', () => {
    const frame = answerDesignFrame(aDesign(), [aPiece()], asked, settings)
    expect(frame).toMatchObject({
      counts: null,
      own: { piece: { id: 'piece-1' }, frame: { opening: { widthUm: inches(11.5), heightUm: inches(8.5) } } },
    })
  })

  it('goes by the advised cloth where none is held', () => {
    const frame = answerDesignFrame(aDesign(), [], { ...asked, seenUm: inches(1) }, settings)
    expect(frame?.own).toMatchObject({
      piece: null,
      on: { over: 2 },
      frame: { opening: { widthUm: inches(12), heightUm: inches(9) } },
    })
  })

  it('holds an opening against every count', () => {
    const frame = answerDesignFrame(
      aDesign(),
      [aPiece()],
      { ...asked, opening: { widthUm: inches(9), heightUm: inches(12) } },
      settings,
    )
    // 12 × 9 around 10 × 7: 1 in on every side, hung the other way; cut 15.75 × 12.75, up to 16 × 13, from 18 × 27.
    expect(frame?.counts?.find(({ pieceCount, over }) => pieceCount > 0 && over === 2)).toMatchObject({
      way: { kind: 'fits', isOpeningTurned: true, cut: { widthUm: inches(16), heightUm: inches(13) } },
      pieces: [{ piece: { id: 'piece-1' }, fit: { kind: 'fits' } }],
    })
  })

  it('says nothing of a design without a size', () => {
    expect(answerDesignFrame(aDesign({ size: { kind: 'unknown' } }), [], asked, settings)).toBeNull()
  })
})
