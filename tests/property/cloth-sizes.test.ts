// What must always hold of a design's size on every count, of motifs and of frames.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { choosePiece } from '#lib/cloth/choose-piece'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { sizeForOpening } from '#lib/cloth/frame-opening'
import { defaultFraming, hiddenUm } from '#lib/cloth/framing'
import { motifBox, oneMotif, requestInThreads, type SizeQuestion } from '#lib/cloth/motifs'
import { rankPieces, sizeOnEveryCount } from '#lib/cloth/on-every-count'
import { aPiece, inches, toTheInch } from '../unit/cloth/cloth-pieces'

const side = fc.integer({ min: 1, max: 60 }).map(inches)
const counts = fc.constantFrom(14, 16, 28, 32, 36)
const pieces = fc
  .array(
    fc.record({
      weave: fc.constantFrom('block' as const, 'single' as const),
      ends: counts,
      picks: counts,
      widthUm: side,
      heightUm: side,
      isTurnable: fc.boolean(),
      isSquared: fc.boolean(),
      isReserved: fc.boolean(),
      isOffcut: fc.boolean(),
    }),
    { maxLength: 12 },
  )
  .map((drawn) =>
    drawn.map(
      ({ ends, picks, ...rest }, at): ClothPiece =>
        aPiece({ ...rest, id: `piece-${at}`, label: null, ends: toTheInch(ends), picks: toTheInch(picks) }),
    ),
  )
const margin = fc.integer({ min: 0, max: 5 }).map(inches)
const question: fc.Arbitrary<SizeQuestion> = fc.record({
  width: fc.integer({ min: 1, max: 400 }),
  height: fc.integer({ min: 1, max: 400 }),
  uncertaintyUm: fc.constantFrom(0, inches(0.125)),
  motifs: fc.record({
    across: fc.integer({ min: 1, max: 4 }),
    down: fc.integer({ min: 1, max: 4 }),
    gapThreads: fc.integer({ min: 0, max: 30 }),
  }),
  margins: fc.record({ leftUm: margin, rightUm: margin, topUm: margin, bottomUm: margin }),
  shrinkPercent: fc.constantFrom(0, 3),
  roundingUm: fc.constantFrom(6_350, 12_700, 10_000),
})
const overFor = (weave: 'block' | 'single') => (weave === 'block' ? 1 : 2)

describe('on every count', () => {
  it('holds every piece once, whatever their order', () => {
    fc.assert(
      fc.property(question, pieces, (asked, held) => {
        const answer = sizeOnEveryCount(asked, held, overFor)
        expect(answer.reduce((sum, { pieceCount }) => sum + pieceCount, 0)).toBe(held.length)
        expect(sizeOnEveryCount(asked, [...held].reverse(), overFor)).toEqual(answer)
        for (const { ranked } of answer) for (const { piece } of ranked) expect(piece.isReserved).toBe(false)
      }),
    )
  })

  it('ranks pieces of one weave as a choice of piece does, and a single motif as its stitches', () => {
    fc.assert(
      fc.property(question, pieces, (asked, held) => {
        const one = { ...asked, motifs: oneMotif }
        const linen = held.filter(({ weave }) => weave === 'single')
        const { width, height, uncertaintyUm, margins, shrinkPercent, roundingUm } = one
        const request = { width, height, uncertaintyUm, margins, shrinkPercent, roundingUm, over: 2 as const, buyCount: null }
        const idsOf = (ranked: readonly { piece: ClothPiece }[]) => ranked.map(({ piece }) => piece.id)
        expect(idsOf(rankPieces(one, linen, overFor))).toEqual(idsOf(choosePiece(request, linen).ranked))
      }),
    )
  })
})

describe('several motifs', () => {
  it('are as many of one and the gaps between, whatever they are worked over', () => {
    fc.assert(
      fc.property(question, fc.constantFrom(1 as const, 2 as const), (asked, over) => {
        const { across, down, gapThreads } = asked.motifs
        const one = motifBox(asked, over, oneMotif)
        const box = motifBox(asked, over, asked.motifs)
        expect(box.widthThreads - across * one.widthThreads).toBe((across - 1) * gapThreads)
        expect(box.heightThreads - down * one.heightThreads).toBe((down - 1) * gapThreads)
        expect(requestInThreads(asked, over).over).toBe(1)
      }),
    )
  })
})

describe('an opening', () => {
  const opening = fc.record({ widthUm: side, heightUm: side })

  it('is cut for as large as it is, whatever goes in, and asks the same whichever side is named first', () => {
    fc.assert(
      fc.property(question, opening, pieces, fc.integer({ min: 0, max: 2 }).map(inches), (asked, size, held, leastSeenUm) => {
        const ask = (one: { widthUm: number; heightUm: number }) =>
          sizeForOpening({ ...asked, opening: one, leastSeenUm, framing: defaultFraming, shrinkPercent: 0 }, held)
        const answer = ask(size)
        const sides = [size.widthUm, size.heightUm].map((um) => um + 2 * hiddenUm(defaultFraming)).sort((a, b) => a - b)
        for (const { way } of answer) expect([way.cut.exactWidthUm, way.cut.exactHeightUm].sort((a, b) => a - b)).toEqual(sides)
        const facts = (counts: typeof answer) =>
          counts.map(({ ends, picks, over, way, pieces: found }) => [
            // Where as much is seen either way, the opening stays as it was given.
            ...[ends, picks, over, way.kind, Math.min(way.seenAcrossUm, way.seenUpUm)],
            found.map(({ piece, turnBackUm }) => [piece.id, turnBackUm]),
          ])
        expect(facts(ask({ widthUm: size.heightUm, heightUm: size.widthUm }))).toEqual(facts(answer))
      }),
    )
  })

  it('is filled only by pieces that hold it', () => {
    fc.assert(
      fc.property(question, opening, pieces, (asked, size, held) => {
        const answer = sizeForOpening(
          { ...asked, opening: size, leastSeenUm: 0, framing: defaultFraming, shrinkPercent: 0 },
          held,
        )
        for (const { pieces: found } of answer) {
          for (const { piece, way, turnBackUm } of found) {
            const kept = 2 * (defaultFraming.rabbetUm + defaultFraming.boardUm + turnBackUm)
            const [across, up] = way.isTurned ? [piece.heightUm, piece.widthUm] : [piece.widthUm, piece.heightUm]
            expect(across + 1).toBeGreaterThanOrEqual(way.opening.widthUm + kept)
            expect(up + 1).toBeGreaterThanOrEqual(way.opening.heightUm + kept)
            expect(piece.isReserved).toBe(false)
            expect(piece.isTurnable || !way.isTurned).toBe(true)
          }
        }
      }),
    )
  })
})
