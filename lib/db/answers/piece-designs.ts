import 'server-only'
import { type CatalogueFilter, type CatalogueResult, readiness } from '#lib/chart/catalogue'
import { stitchSize } from '#lib/chart/design-size'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { fitPiece, type PieceFit } from '#lib/cloth/fit'
import { requestOf } from '#lib/coverage/cloth-answer'
import { type PieceUse, rankUses } from '#lib/coverage/piece-uses'
import { textKey } from '#lib/quantity/text-key'
import { type Answers, clothSettings } from './answers'
import type { DesignFacts } from './read-designs'

export type PieceDesignChoices = Pick<CatalogueFilter, 'season' | 'subject' | 'form' | 'stitchableNow' | 'owner'> & {
  /** Only worked over so many threads; null for over what suits. */
  over: 1 | 2 | null
  /** With the margins asked for, none of them smaller. */
  onlyAsAsked: boolean
}

/** A design the piece takes. */
export type PieceDesign = PieceUse & { facts: DesignFacts; fit: PieceFit; isWanted: boolean; isReady: boolean }

export type PieceDesigns = {
  /** Best use first. */
  uses: PieceUse[]
  /** Everything that is shown of one of them. */
  describe: (use: PieceUse) => PieceDesign
  /** How many each choice would leave, the others as they are. */
  facets: CatalogueResult['facets']
  stitchableNow: number
  /** How many the piece takes at all, with no choice made but over and margins. */
  taken: number
}

/** The designs a piece of cloth takes, best use first; a shop's 20,000 are ranked in memory, and a page of them shown. */
export function findPieceDesigns(
  answers: Answers,
  piece: ClothPiece,
  choices: PieceDesignChoices,
  ownerIds: readonly string[],
): PieceDesigns {
  const { over, onlyAsAsked, ...filter } = choices
  const { world, catalogue } = answers
  const threads = answers.coverage(ownerIds).designs
  const cloth = answers.cloth(ownerIds)
  const taken = cloth.designsFor(piece, over).filter(({ isAsAsked }) => isAsAsked || !onlyAsAsked)
  const result = catalogue.filter(
    { ...filter, designIds: taken.map(({ designId }) => designId) },
    { threads, cloth: cloth.columns },
    'title',
  )
  const shown = new Set(Array.from(result.slots, (slot) => catalogue.recordAt(slot).designId))
  const wanted = new Set(
    [...world.projects.values()]
      .filter(({ status }) => status === 'wanted' || status === 'planned')
      .map(({ designId }) => designId),
  )
  const isWanted = (designId: string) => wanted.has(designId)
  const isReady = (designId: string) => {
    const row = threads.rowOf(designId)
    return row >= 0 && threads.readinessOfRank[threads.rankAt(row)] === readiness.now
  }
  const factsOf = (designId: string) => world.designs.get(designId) as DesignFacts
  const settings = clothSettings(world.settings)
  const fitOf = (use: PieceUse) => {
    const size = stitchSize(factsOf(use.designId).design)
    if (!size) throw new RangeError(`findPieceDesigns: the size of ${use.designId} is not known`)
    return fitPiece(requestOf(size, use.over, settings), piece)
  }
  return {
    uses: rankUses(
      taken.filter(({ designId }) => shown.has(designId)),
      { isWanted, isReady, titleKey: (designId) => textKey(factsOf(designId).design.title) },
    ),
    describe: (use) => ({
      ...use,
      facts: factsOf(use.designId),
      fit: fitOf(use),
      isWanted: isWanted(use.designId),
      isReady: isReady(use.designId),
    }),
    facets: result.facets,
    stitchableNow: result.switches.stitchableNow,
    taken: taken.length,
  }
}
