import fc from 'fast-check'
import { expect, it } from 'vitest'
import { stitchSize } from '#lib/chart/design-size'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { fitPiece } from '#lib/cloth/fit'
import { clothKindKey, isAdvisedCloth } from '#lib/cloth/match-cloth'
import { ClothAnswers, type ClothDesign, clothAnswer, overOn } from '#lib/coverage/cloth-answer'

const settings = { seed: 20260907, numRuns: 200 }
const threeInches = { leftUm: 76_200, rightUm: 76_200, topUm: 76_200, bottomUm: 76_200 }

const count = fc.constantFrom(14, 27, 28, 32).map((threads) => ({ threads, perUm: 25_400 }))
const weave = fc.constantFrom('block' as const, 'single' as const)
const side = fc.integer({ min: 8, max: 30 }).map((inches) => inches * 25_400)
const aPiece: fc.Arbitrary<Omit<ClothPiece, 'id'>> = fc.record({
  ownerId: fc.constant('shop'),
  label: fc.constant(null),
  name: fc.constantFrom('Harrowmere linen', 'Stennick'),
  colourName: fc.constant(null),
  lab: fc.constant(null),
  dyeing: fc.constant(null),
  washState: fc.constantFrom('unknown' as const, 'new' as const, 'washed' as const, 'never' as const),
  isCountStale: fc.constant(false),
  weave,
  ends: count,
  picks: count,
  widthUm: side,
  heightUm: side,
  isSquared: fc.boolean(),
  sizeCertainty: fc.constant('label' as const),
  isTurnable: fc.boolean(),
  isReserved: fc.boolean(),
  isOffcut: fc.boolean(),
  homePlaceId: fc.constant(null),
  currentPlaceId: fc.constant(null),
})
const pieces = fc
  .array(aPiece, { maxLength: 25 })
  .map((rows) => rows.map((row, index): ClothPiece => ({ ...row, id: `c${index}` })))

const stitches = fc.integer({ min: 20, max: 330 })
const aDesign: fc.Arbitrary<Omit<ClothDesign, 'id'>> = fc.record({
  size: fc.oneof(
    fc.record({ kind: fc.constant('stitches' as const), width: stitches, height: stitches }),
    fc.record({ kind: fc.constant('measured' as const), widthUm: side, heightUm: side }),
    fc.constant({ kind: 'unknown' as const }),
  ),
  advised: fc.option(
    fc.record({
      count,
      over: fc.constantFrom(1 as const, 2 as const),
      weave: fc.option(weave),
      insists: fc.boolean(),
      name: fc.option(fc.constantFrom('Harrowmere', 'Stennick')),
    }),
  ),
})
const designs = fc
  .array(aDesign, { minLength: 1, maxLength: 8 })
  .map((rows) => rows.map((row, index): ClothDesign => ({ ...row, id: `d${index}` })))

/** Every piece asked, one by one. */
function askEach({ size, advised }: ClothDesign, all: ClothPiece[], shrinkPercent: number) {
  const stitchesOf = stitchSize({ size, advised })
  let fit = 0
  const kinds = new Set<string>()
  for (const piece of all) {
    if (!stitchesOf || piece.isReserved) continue
    if (advised?.insists && advised.weave !== null && advised.weave !== piece.weave) continue
    const over = overOn(piece.weave, advised)
    const { kind } = fitPiece({ ...stitchesOf, over, margins: threeInches, shrinkPercent, roundingUm: 12_700 }, piece)
    if (kind === 'fits') kinds.add(clothKindKey(piece))
    if (!advised || isAdvisedCloth(piece, advised)) fit = Math.max(fit, kind === 'fits' ? 2 : kind === 'smaller-margin' ? 1 : 0)
  }
  return { fit, kinds: [...kinds].sort() }
}

function read(answers: ClothAnswers, designId: string) {
  const { rowOf, fit, kinds, wordCount, bits } = answers.columns
  const row = rowOf(designId)
  const isSet = (kind: number) => (((bits[row * wordCount + (kind >>> 5)] as number) >>> (kind & 31)) & 1) === 1
  return { fit: fit[row], kinds: kinds.filter((_, kind) => isSet(kind)) }
}

it('asking groups of pieces gives what asking every piece does', () => {
  fc.assert(
    fc.property(designs, pieces, pieces, fc.constantFrom(0, 3), (rows, before, after, shrinkPercent) => {
      const clothSettings = { margins: threeInches, shrinkPercent, roundingUm: 12_700 }
      const answers = new ClothAnswers(rows, before, clothSettings)
      for (const design of rows) expect(read(answers, design.id)).toEqual(askEach(design, before, shrinkPercent))
      answers.setPieces(after)
      for (const design of rows) {
        const asked = askEach(design, after, shrinkPercent)
        expect(read(answers, design.id)).toEqual(asked)
        const alone = clothAnswer(design, after, clothSettings)
        if (alone.kind === 'unknown-size') continue
        expect(alone.choice.best !== null).toBe(asked.fit === 2)
        expect(alone.choice.ranked.length > 0).toBe(asked.fit > 0)
        expect(
          alone.kinds
            .filter((kind) => kind.fit.kind === 'fits')
            .map((kind) => kind.kind)
            .sort(),
        ).toEqual(asked.kinds)
        expect(clothAnswer(design, [...after].reverse(), clothSettings)).toEqual(alone)
      }
      const changed = { ...(rows[0] as ClothDesign), size: { kind: 'stitches' as const, width: 28, height: 56 } }
      answers.setDesign(changed)
      expect(read(answers, changed.id)).toEqual(askEach(changed, after, shrinkPercent))
      answers.removeDesign(changed.id)
      expect(answers.columns.rowOf(changed.id)).toBe(-1)
    }),
    settings,
  )
})

it('chooses for a list as the whole answer does: the same piece, the same near one, the same to buy', () => {
  fc.assert(
    fc.property(designs, pieces, (someDesigns, somePieces) => {
      const cloth = { margins: threeInches, shrinkPercent: 0, roundingUm: 12_700 }
      const answers = new ClothAnswers(someDesigns, somePieces, cloth)
      for (const design of someDesigns) {
        const quick = answers.choiceFor(design.id)
        const whole = clothAnswer(design, somePieces, cloth)
        if (whole.kind === 'unknown-size') {
          expect(quick).toBeNull()
          continue
        }
        const near = (choice: typeof whole.choice) => choice.ranked.find(({ fit }) => fit.kind === 'smaller-margin')
        expect(quick?.best).toEqual(whole.choice.best)
        expect(quick?.toBuy).toEqual(whole.choice.toBuy)
        expect(quick && near(quick)).toEqual(near(whole.choice))
      }
    }),
    settings,
  )
})
