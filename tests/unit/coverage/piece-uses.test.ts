import { describe, expect, it } from 'vitest'
import { marginsAllRound } from '#lib/cloth/margins'
import { ClothAnswers } from '#lib/coverage/cloth-answers'
import { rankUses } from '#lib/coverage/piece-uses'
import { aPiece, inches, toTheInch } from '../cloth/cloth-pieces'

const settings = { margins: marginsAllRound(inches(3)), shrinkPercent: 0, roundingUm: inches(0.5) }
const advised = (threads: number, over: 1 | 2 = 2) => ({
  ...{ count: toTheInch(threads), over, weave: 'single' as const, insists: false, name: null },
})
const aDesign = (id: string, width: number, height: number, threads = 28, over: 1 | 2 = 2) => ({
  ...{ id, size: { kind: 'stitches' as const, width, height }, advised: advised(threads, over) },
})

// On 18 × 27 in of 28 count over two, 14 stitches to the inch, with 3 in all round.
const designs = [
  aDesign('most of it', 154, 280),
  aDesign('half of it', 140, 98),
  aDesign('little of it', 70, 70),
  aDesign('of another count', 154, 282, 32),
  // Over one: 360 ÷ 28 + 6 = 18.86 in.
  aDesign('only with a smaller margin', 360, 98, 28, 1),
  // Over two 24 in, over one 17.8.
  aDesign('only over one', 330, 330),
  aDesign('far too large', 900, 900),
]
const none = { isWanted: () => false, isReady: () => false, titleKey: (id: string) => id }
const titlesOf = (uses: readonly { designId: string }[]) => uses.map(({ designId }) => designId)

describe('what a piece of cloth is best used for', () => {
  const answers = new ClothAnswers(designs, [], settings)
  const uses = answers.designsFor(aPiece({ isTurnable: false }))

  it('is what fits as advised, the one that leaves least first; then otherwise than advised, then smaller margins', () => {
    expect(titlesOf(rankUses(uses, none))).toEqual([
      'most of it',
      'half of it',
      'little of it',
      'of another count',
      'only over one',
      'only with a smaller margin',
    ])
  })

  it('is sooner what is wanted or has its threads, most of all what is both', () => {
    const weighed = rankUses(uses, {
      ...none,
      isWanted: (id) => id === 'half of it' || id === 'little of it',
      isReady: (id) => id === 'little of it' || id === 'only with a smaller margin',
    })
    expect(titlesOf(weighed).slice(0, 4)).toEqual(['little of it', 'half of it', 'most of it', 'of another count'])
  })

  it('is, among those with smaller margins, the one that keeps the largest', () => {
    // 13 in of cloth less 8, 9 and 10 in stitched: 2.5, 2 and 1.5 in on each side.
    const strip = aPiece({ widthUm: inches(13), heightUm: inches(40), isTurnable: false })
    const three = [aDesign('keeps 1½', 140, 140), aDesign('keeps 2½', 112, 140), aDesign('keeps 2', 126, 140)].map((design) => ({
      ...design,
      advised: { ...advised(14, 1), insists: true },
    }))
    const found = new ClothAnswers(three, [], settings).designsFor({ ...strip, ends: toTheInch(14), picks: toTheInch(14) }, 1)
    expect(titlesOf(rankUses(found, none))).toEqual(['keeps 2½', 'keeps 2', 'keeps 1½'])
  })

  it('breaks ties by title, then by id', () => {
    const twins = ['b', 'a', 'c'].map((id) => aDesign(id, 140, 98))
    const found = new ClothAnswers(twins, [], settings).designsFor(aPiece())
    expect(titlesOf(rankUses(found, none))).toEqual(['a', 'b', 'c'])
    const title = (id: string) => (id === 'c' ? 'acorn' : 'bees')
    expect(titlesOf(rankUses(found, { ...none, titleKey: title }))).toEqual(['c', 'a', 'b'])
  })

  it('says what is left of the piece', () => {
    // 16 × 13 in out of 18 × 27.
    const half = uses.find(({ designId }) => designId === 'half of it')
    expect(half?.leftAreaUm2).toBeCloseTo((18 * 27 - 16 * 13) * inches(1) ** 2, -2)
  })
})
