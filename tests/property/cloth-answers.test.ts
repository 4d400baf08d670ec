import fc from 'fast-check'
import { expect, it } from 'vitest'
import { stitchSize } from '#lib/chart/design-size'
import { byBestFirst, choosePiece, type RankedPiece } from '#lib/cloth/choose-piece'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { fitPiece } from '#lib/cloth/fit'
import { clothKindKey, isAdvisedCloth } from '#lib/cloth/match-cloth'
import { type ClothDesign, type ClothSettings, clothAnswer, overOn } from '#lib/coverage/cloth-answer'
import { ClothAnswers } from '#lib/coverage/cloth-answers'
import { aFullDrawer, type ClothEvent, someDesigns, someEvents, somePieces, threeInches } from './cloth-worlds'

const runs = { seed: 20260907, numRuns: 120 }
const clothSettings = fc.record({
  margins: fc.constantFrom(threeInches, { leftUm: 0, rightUm: 50_800, topUm: 25_400, bottomUm: 76_200 }),
  shrinkPercent: fc.constantFrom(0, 3),
  roundingUm: fc.constantFrom(12_700, 6_350, 10_000),
})

const isAllowed = ({ weave }: ClothPiece, { advised }: ClothDesign) =>
  !(advised?.insists && advised.weave !== null && advised.weave !== weave)

/** Every piece asked over every number of threads, one by one; the best of each kind as `choosePiece` has it. */
function askEach(design: ClothDesign, all: readonly ClothPiece[], settings: ClothSettings) {
  const size = stitchSize(design)
  const { advised } = design
  const kinds = new Map<string, { fits: number; near: number; ranked: RankedPiece[] }>()
  const advisedRanked: RankedPiece[] = []
  for (const piece of all) {
    if (!size || piece.isReserved || !isAllowed(piece, design)) continue
    for (const over of [1, 2] as const) {
      const isUsual = over === overOn(piece.weave, advised)
      if (!isUsual && piece.weave === 'block') continue
      const key = `${clothKindKey(piece)} over ${over}`
      const kind = kinds.get(key) ?? { fits: 0, near: 0, ranked: [] }
      kinds.set(key, kind)
      const request = { ...size, ...settings, over }
      const fit = fitPiece(request, piece)
      if (fit.kind === 'fits') kind.fits++
      if (fit.kind === 'smaller-margin') kind.near++
      const { ranked } = choosePiece({ ...request, buyCount: null }, [piece])
      kind.ranked.push(...ranked)
      if (isUsual && (!advised || isAdvisedCloth(piece, advised))) advisedRanked.push(...ranked)
    }
  }
  for (const { ranked } of kinds.values()) ranked.sort(byBestFirst)
  advisedRanked.sort(byBestFirst)
  return { kinds, advisedRanked }
}

function columnsOf(answers: ClothAnswers, designId: string) {
  const { rowOf, fit, kinds, wordCount, bits } = answers.columns
  const row = rowOf(designId)
  const isSet = (kind: number) => (((bits[row * wordCount + (kind >>> 5)] as number) >>> (kind & 31)) & 1) === 1
  return { fit: fit[row], kinds: kinds.filter((_, kind) => isSet(kind)) }
}

function checkAll(
  answers: ClothAnswers,
  designs: readonly ClothDesign[],
  pieces: readonly ClothPiece[],
  settings: ClothSettings,
) {
  for (const design of designs) {
    const asked = askEach(design, pieces, settings)
    const found = answers.kindsFor(design.id)
    expect(new Set(found.map(({ kind, over }) => `${kind} over ${over}`))).toEqual(new Set(asked.kinds.keys()))
    for (const kind of found) {
      const { fits, near, ranked } = asked.kinds.get(`${kind.kind} over ${kind.over}`) as {
        fits: number
        near: number
        ranked: RankedPiece[]
      }
      expect([kind.fitCount, kind.nearCount]).toEqual([fits, near])
      if (ranked[0]) expect({ piece: kind.best, fit: kind.fit }).toEqual({ piece: ranked[0].piece, fit: ranked[0].fit })
      else expect(kind.fit.kind).toBe('too-small')
    }
    const [best] = asked.advisedRanked
    expect(columnsOf(answers, design.id)).toEqual({
      fit: best ? (best.fit.kind === 'fits' ? 2 : 1) : 0,
      kinds: [
        ...new Set(found.filter(({ isUsualOver, fitCount }) => isUsualOver && fitCount > 0).map(({ kind }) => kind)),
      ].sort(),
    })
    const choice = answers.choiceFor(design.id)
    const whole = clothAnswer(design, pieces, settings)
    if (whole.kind === 'unknown-size') {
      expect(choice).toBeNull()
      continue
    }
    expect(whole.choice.ranked).toEqual(asked.advisedRanked)
    expect(choice?.ranked).toEqual(asked.advisedRanked.slice(0, 1))
    expect([choice?.best, choice?.toBuy]).toEqual([whole.choice.best, whole.choice.toBuy])
    const usual = found.filter(({ isUsualOver }) => isUsualOver)
    expect(usual.map(({ isUsualOver: _, fitCount: _fits, nearCount: _near, ...kind }) => kind)).toEqual(whole.kinds)
  }
}

it('answers every design on every kind over every number of threads as asking every piece does, and so in columns', () => {
  fc.assert(
    fc.property(someDesigns, somePieces, clothSettings, (designs, pieces, settings) => {
      checkAll(new ClothAnswers(designs, pieces, settings), designs, pieces, settings)
    }),
    runs,
  )
})

it('finds the best among many of one kind, whose counts are a little apart', () => {
  fc.assert(
    fc.property(someDesigns, aFullDrawer, clothSettings, fc.nat({ max: 29 }), (designs, pieces, settings, at) => {
      const answers = new ClothAnswers(designs, pieces, settings)
      checkAll(answers, designs, pieces, settings)
      const fewer = pieces.filter((_, index) => index !== at)
      answers.setPieces(fewer)
      checkAll(answers, designs, fewer, settings)
    }),
    { ...runs, numRuns: 120 },
  )
})

type World = { designs: ClothDesign[]; pieces: ClothPiece[]; made: number }

/** One thing happens, to the world and to the answers. */
function happen(world: World, answers: ClothAnswers, event: ClothEvent): void {
  const { pieces, designs } = world
  const take = <T>(list: T[], at: number): T | undefined => list[at % Math.max(1, list.length)]
  const newId = (letter: string) => `${letter}${++world.made}new`
  const change = (piece: ClothPiece | undefined, over: Partial<ClothPiece>) => {
    world.pieces = pieces.map((each) =>
      each === piece ? { ...each, ...over } : { ...each, colourName: `${each.colourName}, faded` },
    )
  }
  switch (event.kind) {
    case 'piece comes':
      world.pieces = [...pieces, { ...event.piece, id: newId('c') }]
      break
    case 'piece goes':
      world.pieces = pieces.filter((piece) => piece !== take(pieces, event.at))
      break
    case 'piece is cut':
      change(take(pieces, event.at), { widthUm: event.widthUm, heightUm: event.heightUm, isOffcut: true })
      break
    case 'piece is kept or let go': {
      const piece = take(pieces, event.at)
      change(piece, { isReserved: !piece?.isReserved })
      break
    }
    case 'piece is another':
      change(take(pieces, event.at), event.piece)
      break
    case 'all pieces anew':
      world.pieces = event.pieces
      break
    case 'design comes': {
      const design = { ...event.design, id: newId('d') }
      world.designs = [...designs, design]
      answers.setDesign(design)
      return
    }
    case 'design is another': {
      const known = take(designs, event.at)
      if (!known) return
      const design = { ...event.design, id: known.id }
      world.designs = designs.map((each) => (each === known ? design : each))
      answers.setDesign(design)
      return
    }
    case 'design goes': {
      const known = take(designs, event.at)
      if (!known) return
      world.designs = designs.filter((each) => each !== known)
      answers.removeDesign(known.id)
      expect(answers.columns.rowOf(known.id)).toBe(-1)
      expect(answers.choiceFor(known.id)).toBeNull()
      return
    }
  }
  answers.setPieces(world.pieces)
}

it('stays so whatever is bought, cut, kept, used up or written anew', () => {
  fc.assert(
    fc.property(someDesigns, somePieces, clothSettings, someEvents, (designs, pieces, settings, events) => {
      const world: World = { designs, pieces, made: 0 }
      const answers = new ClothAnswers(designs, pieces, settings)
      for (const event of events) {
        happen(world, answers, event)
        checkAll(answers, world.designs, world.pieces, settings)
      }
    }),
    { ...runs, numRuns: 120 },
  )
})

it('finds every design a piece takes, over the number of threads that suits it', () => {
  fc.assert(
    fc.property(
      someDesigns,
      somePieces,
      clothSettings,
      fc.constantFrom(null, 1 as const, 2 as const),
      (designs, pieces, settings, over) => {
        const answers = new ClothAnswers(designs, pieces, settings)
        for (const piece of pieces) {
          const expected = designs.flatMap((design) => {
            const size = stitchSize(design)
            if (!size || !isAllowed(piece, design)) return []
            const usual = overOn(piece.weave, design.advised)
            const overs = piece.weave === 'block' ? [usual] : [usual, usual === 1 ? (2 as const) : (1 as const)]
            const ways = overs
              .filter((each) => over === null || each === over)
              .map((each) => ({ over: each, fit: fitPiece({ ...size, ...settings, over: each }, piece) }))
              .filter(({ fit }) => fit.kind !== 'too-small')
            const best = ways.find(({ fit }) => fit.kind === 'fits') ?? ways[0]
            if (!best) return []
            const isAdvised = design.advised === null || isAdvisedCloth(piece, design.advised)
            const left = choosePiece({ ...size, ...settings, over: best.over, buyCount: null }, [{ ...piece, isReserved: false }])
            return [
              {
                ...{ designId: design.id, over: best.over, isUsualOver: best.over === usual, isAdvised },
                isAsAsked: best.fit.kind === 'fits',
                marginUm: best.fit.kind === 'smaller-margin' ? best.fit.marginUm : 0,
                leftAreaUm2: left.ranked[0]?.leftAreaUm2,
              },
            ]
          })
          const found = answers.designsFor(piece, over)
          const byId = (a: { designId: string }, b: { designId: string }) => (a.designId < b.designId ? -1 : 1)
          expect(found.sort(byId)).toEqual(expected.sort(byId))
        }
      },
    ),
    runs,
  )
})

it('gives the same answer whatever order the pieces come in', () => {
  fc.assert(
    fc.property(someDesigns, somePieces, clothSettings, (designs, pieces, settings) => {
      const reversed = [...pieces].reverse()
      const [one, other] = [new ClothAnswers(designs, pieces, settings), new ClothAnswers(designs, reversed, settings)]
      for (const design of designs) {
        expect(other.kindsFor(design.id)).toEqual(one.kindsFor(design.id))
        expect(other.choiceFor(design.id)).toEqual(one.choiceFor(design.id))
        expect(clothAnswer(design, reversed, settings)).toEqual(clothAnswer(design, pieces, settings))
      }
    }),
    { ...runs, numRuns: 60 },
  )
})
