import { describe, expect, it } from 'vitest'
import { sizeForOpening } from '#lib/cloth/frame-opening'
import { defaultFraming } from '#lib/cloth/framing'
import { oneMotif } from '#lib/cloth/motifs'
import { answerDesignCloth } from '#lib/coverage/design-cloth'
import { settingsSchema } from '#lib/settings/settings'
import {
  contrastWords,
  countFitWords,
  cutToTell,
  motifWords,
  waysRound,
  withoutPiece,
} from '../../../app/designs/[designId]/cloth/words'
import { openingAnswer, openingPieceWords, seenWords } from '../../../app/designs/[designId]/frame/words'
import { aPiece, inches, toTheInch } from '../cloth/cloth-pieces'

const settings = settingsSchema.parse({})
const advised = { count: toTheInch(28), over: 2, weave: 'single', insists: false, name: 'Ostravane evenweave' } as const
const rookHill = { size: { kind: 'stitches', width: 140, height: 98 } as const, advised }
const clothFor = (pieces: ReturnType<typeof aPiece>[], pieceId: string | null = null) => {
  const choices = { margins: settings.margins.framed, over: null, motifs: oneMotif, count: null, pieceId }
  const cloth = answerDesignCloth(rookHill, pieces, choices, settings)
  if (!cloth) throw new Error('no size')
  return cloth
}
const eighth = { label: 'L-09', widthUm: inches(13), heightUm: inches(18) }

describe('the words of a design’s cloth', () => {
  it('say of both ways round what stands against each', () => {
    const { shown } = clothFor([aPiece(eighth)])
    expect(shown && waysRound(shown, 'in')).toEqual([
      { label: 'Upright', value: 'does not fit as asked; fits if the margin left and right drops to 1½ in' },
      { label: 'Turned', value: 'fits with nothing to spare' },
    ])
    const oneWay = clothFor([aPiece({ ...eighth, isTurnable: false })]).shown
    expect(oneWay && waysRound(oneWay, 'in')[1]?.value).toBe('it may not be turned; if it could: fits with nothing to spare')
  })

  it('say of a count that its piece fits only turned, or is kept', () => {
    const words = (overrides: object) => {
      const [count] = clothFor([aPiece({ ...eighth, ...overrides })]).counts
      return count && countFitWords(count, 'in')
    }
    expect(words({})).toBe('fits with nothing to spare, only turned')
    expect(words({ widthUm: inches(18) })).toBe('fits with 2 in to spare')
    expect(words({ isReserved: true })).toBe('kept for something else; it fits with nothing to spare, only turned')
  })

  it('tell the exact cut where the rounded one would not come out of the piece', () => {
    // 100 stitches at 14 are 7.142857 in, 13.142857 to cut: 13½ rounded up, which 13¼ in do not give.
    const choices = { margins: settings.margins.framed, over: null, motifs: oneMotif, count: null, pieceId: null }
    const design = { size: { kind: 'stitches', width: 100, height: 98 } as const, advised }
    const { shown } = answerDesignCloth(design, [aPiece({ widthUm: inches(13.25), isTurnable: false })], choices, settings) ?? {}
    expect(shown && cutToTell(shown.fit)).toEqual({ widthUm: Math.ceil((184 / 14) * 25_400), heightUm: inches(13) })
  })

  it('say what to buy where nothing held takes it, and what nearly does', () => {
    const buy = 'buy 16 × 13 in of Ostravane evenweave, 28 count over two'
    expect(withoutPiece(clothFor([]), advised, 2, 'in')).toBe(`Nothing held takes it: ${buy}.`)
    expect(withoutPiece(clothFor([aPiece({ ...eighth, widthUm: inches(12.75) })]), advised, 2, 'in')).toBe(
      `L-09 does not fit as asked; fits if the margin above and below drops to 2.875 in, turned; or ${buy}.`,
    )
    expect(withoutPiece(clothFor([aPiece()]), advised, 2, 'in')).toBeNull()
  })

  it('name the threads that are hard to see, and what is not judged', () => {
    const codeOf = (threadId: string) => `0${threadId}`
    const judged = {
      kind: 'judged',
      faint: [{ threadId: '017', gap: 3.4 }],
      notKnownIds: ['311'],
      judgedCount: 5,
      least: 15,
    } as const
    const copied = { ...judged, faint: [...judged.faint], notKnownIds: [...judged.notKnownIds] }
    expect(contrastWords(copied, codeOf)).toEqual({
      title: 'Hard to see on this cloth: 0017 (3.4 apart)',
      rest: 'In lightness they lie less than 15 from it. Lay them on it in daylight; the design may mean it so. Not judged, for want of a recorded colour: 0311.',
    })
    expect(contrastWords({ ...copied, faint: [], notKnownIds: [] }, codeOf)).toBeNull()
    expect(contrastWords({ kind: 'cloth-not-known' }, codeOf)?.title).toBe('Whether the threads show on it is not judged')
  })

  it('count motifs', () => {
    expect(motifWords(oneMotif)).toBe('')
    expect(motifWords({ across: 2, down: 1, gapThreads: 0 })).toBe(' 2 motifs, 2 across and 1 down, nothing between,')
    expect(motifWords({ across: 3, down: 2, gapThreads: 11 })).toBe(' 6 motifs, 3 across and 2 down, 11 threads between,')
  })
})

describe('the words of a design’s frame', () => {
  const question = {
    ...{ width: 70, height: 42, uncertaintyUm: 0, opening: { widthUm: inches(7), heightUm: inches(5) } },
    ...{ leastSeenUm: inches(0.5), framing: defaultFraming, shrinkPercent: 0, roundingUm: inches(0.5) },
  }
  const first = (overrides: object) => {
    const counts = sizeForOpening(question, [aPiece({ label: 'L-12', ...overrides })])
    const [best] = counts.filter(({ pieceCount }) => pieceCount > 0)
    if (!best) throw new Error('no count')
    return { counts, best }
  }

  it('say what is seen, the piece that does it, and how much is left to turn back', () => {
    const { counts, best } = first({})
    expect(seenWords(best.way, 'in')).toBe('1 in at the sides, 1 in above and below')
    expect(openingPieceWords(best, 'in')).toBe('L-12 does it')
    expect(openingAnswer(counts)).toMatch(/^Best: evenweave or linen 28 over two, from L-12\. \d+ more would fit\.$/)
    const short = first({ widthUm: inches(12), heightUm: inches(8.25), isTurnable: false })
    expect(openingPieceWords(short.best, 'in')).toBe('L-12 does it with only 1¼ in to turn back')
    expect(openingPieceWords(first({ isSquared: false, widthUm: inches(11), heightUm: inches(9) }).best, 'in')).toBe(
      'L-12 does it, nothing to spare, but once squared it may not',
    )
    expect(openingPieceWords(first({ widthUm: inches(5), heightUm: inches(5) }).best, 'in')).toBe(
      '1 piece on hand, none large enough',
    )
  })

  it('say by how much it is too large', () => {
    // At 7 to the inch 70 × 42 are 10 × 6 in: 3 and 1 in more than the opening.
    const way = sizeForOpening(question, []).find(({ ends }) => ends.threads === 7)?.way
    expect(way && seenWords(way, 'in')).toBe('3 in too wide and 1 in too high')
    expect(openingAnswer(sizeForOpening({ ...question, width: 2_000, height: 2_000 }, []))).toBe(
      'It is too large for it on every count here.',
    )
  })
})
