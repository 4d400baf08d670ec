import fc from 'fast-check'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { ClothDesign } from '#lib/coverage/cloth-answer'

export const threeInches = { leftUm: 76_200, rightUm: 76_200, topUm: 76_200, bottomUm: 76_200 }

const inch = 25_400
const perInch = (threads: number) => ({ threads, perUm: inch })
/** 110 to 10 cm is spoken of as 28, and 31 × 33 as neither 31 nor 33. */
const count = fc.oneof(
  { weight: 5, arbitrary: fc.constantFrom(14, 27, 28, 32).map(perInch) },
  { weight: 1, arbitrary: fc.constantFrom({ threads: 110, perUm: 100_000 }, { threads: 57, perUm: 2 * inch }) },
)
const counts = fc.oneof(
  { weight: 3, arbitrary: count.map((same) => ({ ends: same, picks: same })) },
  { weight: 1, arbitrary: fc.record({ ends: count, picks: count }) },
)
const weave = fc.constantFrom('block' as const, 'single' as const)
/** Half inches, so that cuts often take all of a side, and pieces are often of one size. */
const side = fc.integer({ min: 16, max: 60 }).map((halves) => (halves * inch) / 2)

type UnnamedPiece = Omit<ClothPiece, 'id'>

export const aPiece: fc.Arbitrary<UnnamedPiece> = fc
  .record({
    ownerId: fc.constant('shop'),
    label: fc.constantFrom(null, 'L-1', 'L-2', 'L-10'),
    name: fc.constantFrom('Harrowmere linen', 'Stennick'),
    colourName: fc.constant(null),
    lab: fc.constant(null),
    dyeing: fc.constant(null),
    washState: fc.constantFrom('unknown' as const, 'new' as const, 'washed' as const, 'never' as const),
    isCountStale: fc.constant(false),
    weave,
    counts,
    widthUm: side,
    heightUm: side,
    isSquared: fc.boolean(),
    sizeCertainty: fc.constant('label' as const),
    isTurnable: fc.boolean(),
    isReserved: fc.integer({ min: 0, max: 4 }).map((draw) => draw === 0),
    isOffcut: fc.boolean(),
    homePlaceId: fc.constant(null),
    currentPlaceId: fc.constant(null),
  })
  .map(({ counts, ...piece }) => ({ ...piece, ...counts }))

export const somePieces: fc.Arbitrary<ClothPiece[]> = fc
  .array(aPiece, { maxLength: 40 })
  .map((rows) => rows.map((row, index) => ({ ...row, id: `c${index}` })))

/** A drawer full of one kind in few sizes, its counts measured a little apart, so that what is left over has to be weighed. */
export const aFullDrawer: fc.Arbitrary<ClothPiece[]> = fc
  .tuple(
    fc.array(fc.record({ widthUm: side, heightUm: side }), { minLength: 2, maxLength: 6 }),
    fc.array(
      fc.record({
        piece: aPiece,
        size: fc.nat(),
        ends: fc.constantFrom(perInch(28), perInch(28), { threads: 110, perUm: 100_000 }, { threads: 57, perUm: 2 * inch }),
        picks: fc.constantFrom(perInch(28), perInch(28), { threads: 278, perUm: 10 * inch }, { threads: 57, perUm: 2 * inch }),
      }),
      { minLength: 30, maxLength: 100 },
    ),
  )
  .map(([sizes, rows]) =>
    rows.map(({ piece, size, ends, picks }, index): ClothPiece => {
      const { widthUm, heightUm } = sizes[size % sizes.length] as { widthUm: number; heightUm: number }
      return { ...piece, id: `c${index}`, weave: 'single', ends, picks, widthUm, heightUm, isReserved: false }
    }),
  )

/** Sevens come out even at 28 over two. */
const stitches = fc.oneof(
  fc.integer({ min: 20, max: 330 }),
  fc.integer({ min: 3, max: 45 }).map((halfInches) => halfInches * 7),
)

export const aDesign: fc.Arbitrary<Omit<ClothDesign, 'id'>> = fc.record({
  size: fc.oneof(
    { weight: 6, arbitrary: fc.record({ kind: fc.constant('stitches' as const), width: stitches, height: stitches }) },
    { weight: 2, arbitrary: fc.record({ kind: fc.constant('measured' as const), widthUm: side, heightUm: side }) },
    { weight: 1, arbitrary: fc.constant({ kind: 'unknown' as const }) },
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

export const someDesigns: fc.Arbitrary<ClothDesign[]> = fc
  .array(aDesign, { minLength: 1, maxLength: 10 })
  .map((rows) => rows.map((row, index) => ({ ...row, id: `d${index}` })))

/** What happens to a collection, by places in its lists. */
export type ClothEvent =
  | { kind: 'piece comes'; piece: UnnamedPiece }
  | { kind: 'piece goes'; at: number }
  | { kind: 'piece is cut'; at: number; widthUm: number; heightUm: number }
  | { kind: 'piece is kept or let go'; at: number }
  | { kind: 'piece is another'; at: number; piece: UnnamedPiece }
  | { kind: 'all pieces anew'; pieces: ClothPiece[] }
  | { kind: 'design comes'; design: Omit<ClothDesign, 'id'> }
  | { kind: 'design is another'; at: number; design: Omit<ClothDesign, 'id'> }
  | { kind: 'design goes'; at: number }

const at = fc.nat({ max: 1_000 })
const is = <Kind extends string>(kind: Kind) => ({ kind: fc.constant(kind) })

export const someEvents: fc.Arbitrary<ClothEvent[]> = fc.array(
  fc.oneof(
    fc.record({ ...is('piece comes'), piece: aPiece }),
    fc.record({ ...is('piece goes'), at }),
    fc.record({ ...is('piece is cut'), at, widthUm: side, heightUm: side }),
    fc.record({ ...is('piece is kept or let go'), at }),
    fc.record({ ...is('piece is another'), at, piece: aPiece }),
    fc.record({ ...is('all pieces anew'), pieces: somePieces }),
    fc.record({ ...is('design comes'), design: aDesign }),
    fc.record({ ...is('design is another'), at, design: aDesign }),
    fc.record({ ...is('design goes'), at }),
  ),
  { maxLength: 12 },
)
