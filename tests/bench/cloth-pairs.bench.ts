import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { ClothDesign } from '#lib/coverage/cloth-answer'
import { ClothAnswers } from '#lib/coverage/cloth-answers'
import { clothSettings } from '#lib/db/answers/answers'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { seededRandom } from '#seed/random'
import { madeCollection } from './made-collection'
import type { Bench, Measurement } from './measurement'
import { PlainClothLoop } from './plain-cloth-loop'
import { comparedTimes, timeByTurns } from './timing'

const rounds = 9
const changeRounds = 101

/** @throws Error at the first design, kind and over the two do not say the same of */
function checkSame(answers: ClothAnswers, designs: readonly ClothDesign[], loop: PlainClothLoop): void {
  for (const [row, design] of designs.entries()) {
    const found = answers.kindsFor(design.id)
    for (const { kind, over, isUsualOver, fitCount, nearCount, best, fit } of found) {
      const ours = { fitCount, nearCount, bestId: fit.kind === 'too-small' ? null : best.id }
      const theirs = loop.answerOf(row, kind, isUsualOver ? 0 : 1)
      if (ours.fitCount !== theirs.fitCount || ours.nearCount !== theirs.nearCount || ours.bestId !== theirs.bestId) {
        throw new Error(`cloth-pairs: ${design.id}, ${kind} over ${over}: ${JSON.stringify([ours, theirs])}`)
      }
    }
  }
}

/** @throws Error when answers kept in step differ from answers made anew */
function checkKept(kept: ClothAnswers, anew: ClothAnswers, designs: readonly ClothDesign[]): void {
  for (const { id } of designs) {
    const [ours, theirs] = [kept, anew].map((answers) => JSON.stringify([answers.kindsFor(id), answers.choiceFor(id)]))
    if (ours !== theirs) throw new Error(`cloth-pairs: ${id} in step ${ours}, anew ${theirs}`)
  }
}

/** As cloth lies in a shop: what was squared lost a little each side, and two in five are what was left of a cut, to an eighth of an inch. */
function usedPieces(pieces: readonly ClothPiece[]): ClothPiece[] {
  const random = seededRandom('cloth pairs')
  const eighthUm = UM_PER_INCH / 8
  return pieces.map((piece) => {
    const isOffcut = random.chance(0.4)
    const cut = (um: number) => {
      if (isOffcut) return Math.round((um * (0.35 + 0.6 * random.next())) / eighthUm) * eighthUm
      return piece.isSquared ? um - random.int(2, 8) * eighthUm : um
    }
    return { ...piece, isOffcut, isReserved: random.chance(0.05), widthUm: cut(piece.widthUm), heightUm: cut(piece.heightUm) }
  })
}

/** One piece is cut smaller, kept for a project or let go; all are read anew, as after any change. */
function changed(pieces: readonly ClothPiece[], random: ReturnType<typeof seededRandom>): ClothPiece[] {
  const at = random.int(0, pieces.length - 1)
  const piece = pieces[at] as ClothPiece
  const less = (um: number) => Math.max(4 * UM_PER_INCH, um - random.int(1, 24) * (UM_PER_INCH / 4))
  const after: ClothPiece = random.chance(0.5)
    ? { ...piece, isOffcut: true, heightUm: less(piece.heightUm) }
    : { ...piece, isReserved: !piece.isReserved }
  return pieces.map((each, index) => (index === at ? after : { ...each }))
}

async function run(): Promise<Measurement[]> {
  const { answers } = await madeCollection('shop')
  const settings = clothSettings(answers.world.settings)
  const designs = [...answers.world.designs.values()].map(({ design }) => design)
  let pieces = usedPieces(answers.world.pieces)
  const anew = () => new ClothAnswers(designs, pieces, settings)

  const loop = new PlainClothLoop(designs, pieces, settings)
  loop.answerAll()
  const kept = anew()
  checkSame(kept, designs, loop)
  const all = timeByTurns({ ours: () => void anew(), against: () => loop.answerAll() }, { rounds, warmUps: 2 })

  const random = seededRandom('cloth pairs changes')
  const inStep = () => {
    pieces = changed(pieces, random)
    const begun = performance.now()
    kept.setPieces(pieces)
    return performance.now() - begun
  }
  const one = timeByTurns({ ours: { countedMs: inStep }, against: () => void anew() }, { rounds: changeRounds, warmUps: 20 })
  checkKept(kept, anew(), designs)
  const count = (many: number) => many.toLocaleString('en')
  return [
    comparedTimes(
      `shop: ${count(pieces.length)} pieces on ${count(designs.length)} designs, every kind of cloth, over and way answered from nothing; a plain double loop`,
      all,
      { samples: rounds, timesFaster: 20 },
    ),
    comparedTimes('shop: one piece is cut, kept or let go, every design right again; all answered anew by ours', one, {
      samples: changeRounds,
      timesFaster: 10,
    }),
  ]
}

export const clothPairs: Bench = {
  name: 'cloth-pairs',
  about: [
    'All pieces of cloth on all designs of the shop-size collection: for every design and every kind of cloth on hand, over one and over two where the weave allows it and both ways round where the piece may be turned, how many pieces fit as asked, how many more would at smaller margins, and which is the best. Sizes are varied as they are in use, two in five pieces being offcuts.',
    'The double loop does the arithmetic of every piece for every design, way and over on bare numbers, pitches looked up beforehand and nothing made inside it; it counts and keeps the best as it goes. Ours begins from the same designs and pieces, with nothing sorted or grouped yet, and answers besides which piece of the advised cloth is best. Both are held to the same counts and the same best piece for every design before timing; answers kept in step with 121 changes are held to answers made anew after it.',
  ],
  run,
}
