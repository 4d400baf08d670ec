import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { marginsAllRound } from '#lib/cloth/margins'
import { type AskedWish, askedCutSchema, cutPriorities } from '#lib/coverage/asked-cut'
import {
  type CuttablePiece,
  cutRequestOf,
  listCutCandidates,
  piecesSuggested,
  type ResolvedWish,
  suggestCutPieces,
  valuesOf,
  waysOn,
} from '#lib/coverage/cut-wishes'
import { aPiece, inches, toTheInch } from '../cloth/cloth-pieces'

const settings = { shrinkPercent: 0, roundingUm: inches(0.5) }
const size = (width: number, height: number) => ({ widthUm: inches(width), heightUm: inches(height) })

const piece = (id: string, over: Partial<CuttablePiece> = {}): CuttablePiece => ({
  ...aPiece({ id, label: id }),
  keptForProjectIds: [],
  isPlanned: false,
  ...over,
})

/** 84 × 84 over two: 6 × 6 in on 28 count, 10 × 10 in to cut as an ornament. */
const lanterns = (over: Partial<Extract<ResolvedWish, { kind: 'design' }>> = {}): ResolvedWish => ({
  ...{ kind: 'design', id: 'w1', title: 'Seven Lanterns', designId: 'lanterns', projectId: null, over: null, ownerId: null },
  ...{ margins: marginsAllRound(inches(2)), cloth: 'advised', copies: 1, priority: 'wanted', worth: 1 },
  design: {
    size: { kind: 'stitches', width: 84, height: 84 },
    advised: { count: toTheInch(28), over: 2, weave: 'single', insists: false, name: null },
  },
  ...over,
})
const plain = (
  id: string,
  width: number,
  height: number,
  over: Partial<Extract<ResolvedWish, { kind: 'size' }>> = {},
): ResolvedWish => ({
  ...{ kind: 'size', id, title: '', ...size(width, height), mayTurn: true, copies: 1, priority: 'wanted', worth: 1 },
  ...{ design: null, ownerId: null },
  ...over,
})

describe('how a wish may lie on a piece', () => {
  it('is its cut size on the piece’s own count, only on the cloth its chart advises unless any will do', () => {
    expect(waysOn(lanterns(), piece('a'), settings)).toMatchObject([{ ...size(10, 10), isTurned: false }, { isTurned: true }])
    // On 36 count over two it is 4⅔ in, and 9 in with its margins once rounded up.
    const fine = piece('b', { ends: toTheInch(36), picks: toTheInch(36) })
    expect(waysOn(lanterns(), fine, settings)).toEqual([])
    expect(waysOn(lanterns({ cloth: 'any' }), fine, settings)[0]).toMatchObject(size(9, 9))
    expect(waysOn(lanterns({ over: 1 }), piece('a'), settings)[0]).toMatchObject(size(7, 7))
  })

  it('is never on a weave that the chart will not have', () => {
    const block = piece('a', { weave: 'block', ends: toTheInch(14), picks: toTheInch(14) })
    const insisting = lanterns({
      cloth: 'any',
      design: {
        size: { kind: 'stitches', width: 84, height: 84 },
        advised: { count: toTheInch(28), over: 2, weave: 'single', insists: true, name: null },
      },
    })
    expect(waysOn(lanterns({ cloth: 'any' }), block, settings)[0]).toMatchObject(size(10, 10))
    expect(waysOn(insisting, block, settings)).toEqual([])
  })

  it('is turned only where both the size and the cloth allow it', () => {
    const long = plain('w1', 20, 6)
    expect(waysOn(long, piece('a'), settings)).toEqual([{ ...size(6, 20), isTurned: true }])
    expect(waysOn(long, piece('a', { isTurnable: false }), settings)).toEqual([])
    expect(waysOn(plain('w1', 20, 6, { mayTurn: false }), piece('a'), settings)).toEqual([])
    expect(waysOn(plain('w1', 8, 8), piece('a'), settings)).toEqual([{ ...size(8, 8), isTurned: false }])
  })

  it('is on a piece that is kept only for the project that keeps it, and on its own owner’s cloth', () => {
    const kept = piece('a', { keptForProjectIds: ['p1'], isReserved: true })
    expect(waysOn(lanterns({ projectId: 'p1' }), kept, settings)).not.toEqual([])
    expect(waysOn(lanterns({ projectId: 'p2' }), kept, settings)).toEqual([])
    expect(waysOn(lanterns(), kept, settings)).toEqual([])
    expect(waysOn(plain('w1', 4, 4), kept, settings)).toEqual([])
    expect(waysOn(lanterns({ projectId: 'p1' }), piece('a', { ...kept, keptForProjectIds: ['p1', 'p2'] }), settings)).toEqual([])
    expect(waysOn(lanterns({ projectId: 'p1' }), piece('a', { isPlanned: true }), settings)).toEqual([])
    expect(waysOn(lanterns({ ownerId: 'hanne' }), piece('a'), settings)).toEqual([])
    expect(waysOn(lanterns({ ownerId: 'owner-1' }), piece('a'), settings)).not.toEqual([])
  })
})

describe('which pieces to cut from', () => {
  const idsOf = (wishes: ResolvedWish[], pieces: CuttablePiece[]) =>
    listCutCandidates(wishes, pieces, settings).map((candidate) => candidate.piece.id)

  it('are those that something fits: advised before others, offcuts first, then the smaller', () => {
    const pieces = [
      piece('large', { ...size(36, 27) }),
      piece('other', { ends: toTheInch(32), picks: toTheInch(32) }),
      piece('small', { ...size(12, 13) }),
      piece('offcut', { isOffcut: true }),
      piece('too small', { ...size(9, 27) }),
      piece('kept', { keptForProjectIds: ['p1'] }),
    ]
    expect(idsOf([lanterns()], pieces)).toEqual(['offcut', 'small', 'large'])
    expect(idsOf([lanterns({ cloth: 'any' })], pieces)).toEqual(['offcut', 'small', 'large', 'other'])
    expect(idsOf([plain('w1', 40, 40)], pieces)).toEqual([])
  })

  const suggested = (wishes: ResolvedWish[], pieces: CuttablePiece[]) =>
    suggestCutPieces(listCutCandidates(wishes, pieces, settings), wishes)
  const oddments = Array.from({ length: 20 }, (_, at) =>
    piece(`oddment ${String(at).padStart(2, '0')}`, { ...size(8, 8), isOffcut: true }),
  )

  it('are the first of them, but every wish has one it fits', () => {
    const small = plain('w1', 6, 6)
    expect(suggested([small], oddments)).toEqual(oddments.slice(0, piecesSuggested).map(({ id }) => id))
    const quarter = piece('quarter')
    const both = suggested([small, plain('w2', 11, 11)], [...oddments, quarter])
    expect(both).toHaveLength(piecesSuggested)
    expect(both).toContain('quarter')
  })

  it('take larger ones where the first would not give all that is wanted', () => {
    // Twelve oddments give twelve; forty want some 1,440 square inches.
    const wanted = plain('w1', 6, 6, { copies: 40 })
    const pieces = [...oddments, piece('quarter'), piece('half', { ...size(36, 27) })]
    expect(suggested([plain('w1', 6, 6)], pieces)).not.toContain('half')
    const chosen = suggested([wanted], pieces)
    expect(chosen).toHaveLength(piecesSuggested)
    expect(chosen).toEqual(expect.arrayContaining(['half', 'quarter']))
  })
})

describe('what a copy counts', () => {
  const wish = fc.record({
    copies: fc.integer({ min: 1, max: 20 }),
    priority: fc.constantFrom(...cutPriorities),
    worth: fc.integer({ min: 1, max: 100 }),
  })

  it('is its worth where all are wanted alike', () => {
    expect(valuesOf([lanterns({ worth: 3 }), plain('w2', 4, 4)])).toEqual([3, 1])
  })

  it('is more than all copies of every later priority together, and goes by worth within one', () => {
    fc.assert(
      fc.property(fc.array(wish, { minLength: 1, maxLength: 10 }), (wishes) => {
        const values = valuesOf(wishes)
        for (const [at, one] of wishes.entries()) {
          const later = wishes.reduce(
            (sum, other, index) =>
              cutPriorities.indexOf(other.priority) > cutPriorities.indexOf(one.priority)
                ? sum + other.copies * (values[index] as number)
                : sum,
            0,
          )
          expect(values[at]).toBeGreaterThan(later)
          for (const [index, other] of wishes.entries())
            if (other.priority === one.priority)
              expect(Math.sign((values[at] as number) - (values[index] as number))).toBe(Math.sign(one.worth - other.worth))
        }
      }),
      { seed: 4 },
    )
  })

  it('stays a whole number that can be added up, for the most that may be asked', () => {
    const most = cutPriorities.map((priority, at) => ({ priority, copies: [66, 67, 67][at] as number, worth: 100 }))
    const values = valuesOf(most)
    const sum = most.reduce((total, { copies }, at) => total + copies * (values[at] as number), 0)
    expect(Number.isSafeInteger(sum)).toBe(true)
  })
})

describe('the request for a search', () => {
  it('names only pieces of use, and the ways on each', () => {
    const pieces = [piece('a'), piece('b', { ...size(5, 5) })]
    const asked = { objective: 'least waste' as const, gapUm: 6_350, leastOffcutUm: inches(5), seed: 7 }
    expect(cutRequestOf(asked, [lanterns({ copies: 2, worth: 5 })], pieces, settings)).toEqual({
      ...asked,
      pieces: [{ id: 'a', ...size(18, 27) }],
      wishes: [
        {
          ...{ id: 'w1', copies: 2, value: 5 },
          ways: {
            a: [
              { ...size(10, 10), isTurned: false },
              { ...size(10, 10), isTurned: true },
            ],
          },
        },
      ],
    })
  })
})

describe('what may be asked', () => {
  it('is so many copies and no more', () => {
    const wish: AskedWish = { kind: 'size', ...size(4, 4), mayTurn: true, copies: 150, priority: 'wanted', worth: 1 }
    const asked = { pieceIds: null, objective: 'least waste', gapUm: 0, leastOffcutUm: 0, seed: 1 }
    expect(askedCutSchema.safeParse({ ...asked, wishes: [wish] }).success).toBe(true)
    expect(askedCutSchema.safeParse({ ...asked, wishes: [wish, wish] }).success).toBe(false)
    expect(askedCutSchema.safeParse({ ...asked, wishes: [] }).success).toBe(false)
  })
})
